"""In use: what warmth, cold and many bends do to the part. What no published law reaches is said as not known."""

from profilesmith.checks.amounts import amount, between
from profilesmith.checks.case import Case, ask
from profilesmith.checks.materials import flexible, modulus, spool_name, spool_range
from profilesmith.ledger.judgement import Amount, Finding
from profilesmith.physics.answer import Bracket
from profilesmith.physics.bending import growth_strain_share, outer_strain_share, warm_through_s

WARMTH, BENDS = "in-use-warmth", "in-use-bends"
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


def check(case: Case) -> tuple[Finding, ...]:
    """None for a rigid spool, or one of which nobody said what it is."""
    if not flexible(case):
        return ()
    findings = (_warmth(case), _bends(case))
    return tuple(finding for finding in findings if finding is not None)


def _warmth(case: Case) -> Finding | None:
    glass = spool_range(case, "glass_transition")
    if glass is None:
        return None
    soft = glass.high < ROOM_C
    warmed = not soft and _worn(case) and glass.low <= SKIN_C
    return Finding(
        WARMTH,
        "passed" if soft else "note",
        reason="soft-at-any-warmth" if soft else "softens-when-warm",
        also=("softens-on-skin",) if warmed else (),
        names=(spool_name(case),),
        amounts=(
            Amount("after", glass.low, glass.high, glass.unit),
            *amount("skin", SKIN_C if _worn(case) else None, "°C"),
            *(_on_skin(case) if warmed else ()),
        ),
        source=f"{SOURCE}; glass transition of the material: {glass.source}",
        ask="" if soft or not _worn(case) or case.quantity("part.worn_time") else ask("part.worn_time"),
    )


def _worn(case: Case) -> bool:
    return case.word("part.skin_contact") == "yes"


def _on_skin(case: Case) -> tuple[Amount, ...]:
    """How soon it is as warm as skin, and how long it is worn."""
    thickness = case.quantity("part.thickness")
    most = max(1.0, warm_through_s(thickness, DIFFUSIVITY_MM2_S) / 60) if thickness else None
    return (*amount("warm-within", most, "min"), *amount("worn", case.quantity("part.worn_time"), "s"))


def _bends(case: Case) -> Finding | None:
    """Strain of each bend beside what is not known of many."""
    thickness, radius = case.quantity("part.thickness"), case.quantity("part.bend_radius")
    if not thickness or not radius:
        return None
    strain = outer_strain_share(thickness, radius)
    if not isinstance(strain, float):
        return None
    usual, borne = spool_range(case, "elongation"), _borne(case)
    return Finding(
        BENDS,
        "not judged",
        reason="bends-not-known",
        also=() if borne is None else (_beside(strain, borne),),
        amounts=(
            *amount("stretch", strain * 100, "%"),
            *amount("of-break", strain / (usual.low / 100) * 100 if usual else None, "%"),
            *between("groove-grows", borne, "%", 100),
        ),
        source=BENDS_SOURCE,
    )


def _borne(case: Case) -> Bracket | None:
    """The stretch from which a groove as deep as those between layers would grow in a rubber as stiff."""
    own, height = modulus(case), case.size("layer.height")
    if own is None or height is None:
        return None
    ends = zip(THRESHOLD_N_PER_MM, (own.mpa.high, own.mpa.low), strict=True)
    return Bracket(*(growth_strain_share(threshold, height / 2, mpa) for threshold, mpa in ends))


def _beside(strain: float, borne: Bracket) -> str:
    return "below-growth" if strain < borne.low else "above-growth" if strain > borne.high else "among-growth"
