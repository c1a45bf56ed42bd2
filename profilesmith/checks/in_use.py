"""In use: what warmth, cold and many bends do to the part. What no published law reaches is said as not known."""

from profilesmith.checks.amounts import degrees, percent
from profilesmith.checks.case import Case
from profilesmith.checks.finding import not_judged
from profilesmith.checks.materials import Range, flexible, spool_name, spool_range
from profilesmith.ledger.judgement import Finding, Verdict
from profilesmith.physics.bending import outer_strain_share

WARMTH, WARMTH_TITLE = "in-use-warmth", "Warmth and cold"
BENDS, BENDS_TITLE = "in-use-bends", "Many bends"
SKIN_C = 33.0  # of skin under a worn part: common practice, no source
ROOM_C, CAR_C = 20.0, 60.0  # a closed car in the sun: common practice, no source
SOURCE = "glass transition against skin (33 °C) and a closed car in the sun (60 °C): common practice, no source"
SET = "Stored bent, it stays bent: store it as it is worn."


def check(case: Case) -> tuple[Finding, ...]:
    """None for a rigid spool, or one of which nobody said what it is."""
    if not flexible(case):
        return ()
    found = (_warmth(case), _bends(case))
    return tuple(finding for finding in found if finding is not None)


def _warmth(case: Case) -> Finding | None:
    glass = spool_range(case, "glass_transition")
    if glass is None:
        return None
    verdict, text = _words(case, glass)
    return Finding(
        WARMTH,
        verdict,
        WARMTH_TITLE,
        f"{text} {SET}" if verdict == "note" else text,
        after=glass.show(),
        limit=degrees(SKIN_C) if case.word("part.skin_contact") == "yes" else "",
        source=f"{SOURCE}; glass transition of the material: {glass.source}",
    )


def _words(case: Case, glass: Range) -> tuple[Verdict, str]:
    name = spool_name(case)
    name = name[:1].upper() + name[1:]
    if glass.high < ROOM_C:
        return (
            "passed",
            f"{name} is above its glass transition ({glass.show()}) in use: warmth changes its feel little.",
        )
    text = f"{name} passes its glass transition somewhere from {glass.show()}: it stiffens in the cold"
    if case.word("part.skin_contact") == "yes" and glass.low <= SKIN_C <= glass.high:
        text += f", and softens in the first minutes on skin of {degrees(SKIN_C)}"
    return "note", f"{text}, and sags in a closed car in the sun."


def _bends(case: Case) -> Finding | None:
    """Strain of each bend beside what is not known of many."""
    thickness, radius = case.quantity("part.thickness"), case.quantity("part.bend_radius")
    if not thickness or not radius:
        return None
    strain = outer_strain_share(thickness, radius)
    if not isinstance(strain, float):
        return None
    usual = spool_range(case, "elongation")
    share = f", {percent(strain / (usual.low / 100))} of what breaks the plastic at once" if usual else ""
    known = (
        f"Each bend stretches the outside by {percent(strain)}{share}. A bigger radius or a thinner part is the only "
        "sure help."
    )
    reason = "no published law tells how many bends a printed part stands"
    return not_judged(BENDS, BENDS_TITLE, reason, "How does a printed strip stand a day of bending?", known=known)
