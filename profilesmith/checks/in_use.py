"""In use: what warmth, cold and many bends do to the part. What no published law reaches is said as not known."""

from profilesmith.checks.amounts import bracket, degrees, percent, shown
from profilesmith.checks.case import Case, ask
from profilesmith.checks.finding import amount, not_judged
from profilesmith.checks.materials import Range, flexible, modulus, spool_name, spool_range
from profilesmith.ledger.judgement import Amount, Finding, Verdict
from profilesmith.physics.answer import Bracket
from profilesmith.physics.bending import outer_strain_share
from profilesmith.physics.wear import growth_strain_share, warm_through_s

WARMTH, WARMTH_TITLE = "in-use-warmth", "Warmth and cold"
BENDS, BENDS_TITLE = "in-use-bends", "Many bends"
SKIN_C = 33.0  # of skin under a worn part: common practice, no source
ROOM_C, CAR_C = 20.0, 60.0  # a closed car in the sun: common practice, no source
SOURCE = "glass transition against skin (33 °C) and a closed car in the sun (60 °C): common practice, no source"
DIFFUSIVITY_MM2_S = 0.08  # the slowest of plastics (0.08 to 0.15, from memory)
# Energy for each area below which no crack grows in rubbers, 20 to 100 J/m2 (Lake and Lindley 1965, from memory), and
# grooves between layers: half a layer deep at most (geometry of round bead edges).
THRESHOLD_N_PER_MM = (0.02, 0.1)
BENDS_SOURCE = (
    "stretch of the outside (geometry); a groove of half a layer in a rubber of that modulus, threshold 20 to 100 J/m2 "
    "(Lake and Lindley 1965, from memory)"
)
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
        reason="softens-when-warm" if verdict == "note" else "soft-at-any-warmth",
        amounts=(Amount("after", glass.low, glass.high, "°C"),),
        ask="" if verdict == "passed" or not _worn(case) or case.quantity("part.worn_time") else ask("part.worn_time"),
    )


def _worn(case: Case) -> bool:
    return case.word("part.skin_contact") == "yes"


def _words(case: Case, glass: Range) -> tuple[Verdict, str]:
    name = spool_name(case)
    name = name[:1].upper() + name[1:]
    if glass.high < ROOM_C:
        return (
            "passed",
            f"{name} is above its glass transition ({glass.show()}) in use: warmth changes its feel "
            "little. Stored bent "
            "for long, it keeps some of the bend.",
        )
    text = f"{name} passes its glass transition somewhere from {glass.show()}: it stiffens in the cold"
    text += ", and sags in a closed car in the sun."
    return "note", f"{text} {_on_skin(case)}".rstrip() if _worn(case) and glass.low <= SKIN_C else text


def _on_skin(case: Case) -> str:
    """How soon it is as warm as skin, and what the hours after that do."""
    thickness, worn = case.quantity("part.thickness"), case.quantity("part.worn_time")
    soon = "within minutes"
    if thickness:
        most = max(1.0, warm_through_s(thickness, DIFFUSIVITY_MM2_S) / 60)
        soon = f"within {shown(most, 'min')}"
    text = f"On skin of {degrees(SKIN_C)} it is warm right through {soon} and softens."
    if worn:
        text += f" For the rest of {_hours(worn)} it may creep into the pose in which it is worn."
    return f"{text} How much it creeps in an hour is not published: wear a scrap as long, and look at it the day after."


def _hours(seconds: float) -> str:
    return shown(seconds / 3600, "h") if seconds >= 3600 else shown(seconds / 60, "min")


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
        "Each bend stretches the outside by "
        f"{percent(strain)}{share}.{_beside_rubber(case, strain)} A bigger radius or a "
        "thinner part is the only sure help."
    )
    reason = "no published law tells how many bends a printed part stands"
    found = not_judged(BENDS, BENDS_TITLE, reason, "How does a printed strip stand a day of bending?", known=known)
    return found._replace(source=BENDS_SOURCE, reason="bends-not-known", amounts=amount("stretch", strain * 100, "%"))


def _beside_rubber(case: Case, strain: float) -> str:
    """What a groove as deep as those between layers would do in a rubber as stiff."""
    own, height = modulus(case), case.size("layer.height")
    if own is None or height is None:
        return ""
    ends = zip(THRESHOLD_N_PER_MM, (own.mpa.high, own.mpa.low), strict=True)
    borne = Bracket(*(growth_strain_share(threshold, height / 2, mpa) for threshold, mpa in ends))
    grows = "stays below" if strain < borne.low else "is above" if strain > borne.high else "lies among"
    text = f" That {grows} the {bracket(borne, '%', 100)} from which a groove of half a layer grows in a moulded rubber"
    return f"{text} as stiff (from memory); welded layers bear less."
