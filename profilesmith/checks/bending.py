"""What use does to the part: how far its smallest bend stretches it and the paint on it; what warmth and cold do.

What no published law reaches is said as not known.
"""

from profilesmith.checks.amounts import amount, between
from profilesmith.checks.case import Case, ask
from profilesmith.checks.materials import Range, flexible, modulus, of_spool, spool_name, spool_range
from profilesmith.ledger.judgement import Amount, Finding, Verdict
from profilesmith.physics.answer import Bracket, NotValid, spanning
from profilesmith.physics.bending import (
    coated_radius_bracket_mm,
    coating_strain_bracket,
    growth_strain_share,
    outer_strain_share,
    smallest_inner_radius_mm,
    warm_through_s,
)

CHECK = "bending"
# Printed parts break before the plastic does, so only half of the lower end counts as safe (own margin).
MARGIN = 0.5
SOURCE = "outer fibre of a bent part: t / (2 R + t), R inside the bend (geometry)"


def check_part(case: Case) -> tuple[Finding, ...]:
    """One finding; it hangs on part and spool, not on the settings."""
    thickness, radius = case.quantity("part.thickness"), case.quantity("part.bend_radius")
    if thickness is None or radius is None:
        missing = "part.bend_radius" if radius is None else "part.thickness"
        return (Finding(CHECK, "not judged", reason="bend-not-said", ask=ask(missing)),)
    if radius == 0:
        return (Finding(CHECK, "not judged", reason="folded-flat"),)
    strain = outer_strain_share(thickness, radius)
    if isinstance(strain, NotValid):
        return (Finding(CHECK, "not judged", reason="bend-too-sharp"),)
    amounts = (*amount("after", strain * 100, "%"), *amount("radius", radius, "mm"), *amount("part", thickness, "mm"))
    usual = spool_range(case, "elongation")
    if usual is None:
        asked = ask("spool.material")
        return (Finding(CHECK, "not judged", reason="filament-not-said", amounts=amounts, ask=asked),)
    return (_judge(case, thickness, strain, usual, amounts),)


def _judge(case: Case, thickness: float, strain: float, usual: Range, amounts: tuple[Amount, ...]) -> Finding:
    most = usual.low * MARGIN
    safe = strain * 100 <= most
    gentle = None if safe else smallest_inner_radius_mm(thickness, most / 100)
    breaks = "bend-breaks" if strain * 100 > usual.high else "bend-may-crack"
    return Finding(
        CHECK,
        "passed" if safe else "caution",
        reason="bend-stands" if safe else breaks,
        names=(spool_name(case),),
        amounts=(
            *amounts,
            *amount("most", most, "%"),
            *amount("headroom", most - strain * 100 if strain * 100 < most else None, "%"),
            Amount("breaks", usual.low, usual.high, "%"),
            *amount("safe-radius", gentle if isinstance(gentle, float) else None, "mm"),
        ),
        source=f"{SOURCE}; elongation at break: {usual.source}; half of its lower end: own margin",
    )


PAINT = "coating"
COATED = ("rigid", "elastic")
# A suggested least elongation of picture varnishes, Feller and Curran 1985, through a conservation text.
VARNISH = Bracket(0.01, 0.03)
GROOVES = 2.0  # layer lines across the bend gather the stretch (own assumption)
THICKEST_MM = 0.1  # of the paint, where nobody told (own assumption)
PAINT_SOURCE = (
    "strain of the coating's outside, from pure bending to the table of ASTM D522 method B; "
    "twice as much for the grooves "
    "between layers: own assumption"
)
VARNISH_SOURCE = (
    "1 to 3 % is a suggested minimum for picture varnish (Feller and Curran 1985, through a conservation text)"
)


def check_paint(case: Case) -> tuple[Finding, ...]:
    """None for a part that is not painted."""
    if case.word("part.coating") not in COATED:
        return ()
    strain, plastic = _strain(case), of_spool(case)
    tacky = ("tacky",) if plastic is not None and plastic.flexible and not plastic.rubbery else ()
    if isinstance(strain, Finding):
        return (strain._replace(also=tacky),)
    elongation = case.quantity("part.coating_elongation")
    finding = _unknown(case, strain) if elongation is None else _against(case, strain, elongation / 100)
    return (finding._replace(also=(*finding.also, *tacky)),)


def standing_radius_mm(case: Case, stretch: float) -> Bracket | NotValid | None:
    """The sharpest bend that a paint of this stated stretch stands; None where the part's thickness is not known."""
    thickness = case.quantity("part.thickness")
    if thickness is None:
        return None
    radii = [coated_radius_bracket_mm(thickness, film, stretch / GROOVES) for film in _films(case)]
    valid = [item for item in radii if isinstance(item, Bracket)]
    return spanning(valid) if len(valid) == len(radii) else next(item for item in radii if isinstance(item, NotValid))


def _finding(verdict: Verdict, reason: str, strain: Bracket, amounts: tuple[Amount, ...] = ()) -> Finding:
    needed = between("after", Bracket(strain.low * GROOVES, strain.high * GROOVES), "%", 100)
    amounts = (*needed, *between("bend", strain, "%", 100), *amounts)
    return Finding(PAINT, verdict, reason=reason, amounts=amounts, source=PAINT_SOURCE)


def _unknown(case: Case, strain: Bracket) -> Finding:
    """Nobody told how far this paint stretches."""
    asked = ask("part.coating_elongation")
    if case.word("part.coating") == "elastic":
        return _finding("note", "paint-to-be-checked", strain)._replace(ask=asked)
    cracks = strain.low > VARNISH.high
    finding = _finding(
        "caution" if cracks else "note", "hard-paint-likely-cracks" if cracks else "hard-paint-may-crack", strain
    )
    return finding._replace(ask=asked, source=f"{SOURCE}; {VARNISH_SOURCE}")


def _against(case: Case, strain: Bracket, stretch: float) -> Finding:
    radius, room = standing_radius_mm(case, stretch), stretch - strain.high * GROOVES
    amounts = (
        *amount("most", stretch * 100, "%"),
        *between("radius", radius if isinstance(radius, Bracket) else None, "mm"),
    )
    if room >= 0:
        amounts = (*amounts, Amount("headroom", room * 100, room * 100, "%"))
        return _finding("passed", "paint-stretches-enough", strain, amounts)
    if strain.low > stretch:
        return _finding("caution", "paint-likely-cracks", strain, amounts)
    return _finding("note", "paint-may-crack", strain, amounts)


def _films(case: Case) -> tuple[float, ...]:
    """Thicknesses that the paint may have [mm]."""
    coat = case.quantity("part.coating_thickness")
    return (0.0, THICKEST_MM) if coat is None else (coat,)


def _strain(case: Case) -> Bracket | Finding:
    thickness, radius = case.quantity("part.thickness"), case.quantity("part.bend_radius")
    if thickness is None or radius is None:
        missing = "part.bend_radius" if radius is None else "part.thickness"
        return Finding(PAINT, "not judged", reason="bend-not-said", ask=ask(missing))
    if radius == 0:
        return Finding(PAINT, "not judged", reason="folded-flat")
    strains = [coating_strain_bracket(thickness, film, radius) for film in _films(case)]
    valid = [item for item in strains if isinstance(item, Bracket)]
    if len(valid) < len(strains):
        return Finding(PAINT, "not judged", reason="bend-too-sharp")
    return spanning(valid)


WARMTH, BENDS = "in-use-warmth", "in-use-bends"
SKIN_C = 33.0  # of skin under a worn part: common practice, no source
ROOM_C, CAR_C = 20.0, 60.0  # a closed car in the sun: common practice, no source
USE_SOURCE = "glass transition against skin (33 °C) and a closed car in the sun (60 °C): common practice, no source"
DIFFUSIVITY_MM2_S = 0.08  # the slowest of plastics (0.08 to 0.15, from memory)
# Energy for each area below which no crack grows in rubbers, 20 to 100 J/m2 (Lake and Lindley 1965, from memory), and
# grooves between layers: half a layer deep at most (geometry of round bead edges).
THRESHOLD_N_PER_MM = (0.02, 0.1)
BENDS_SOURCE = (
    "stretch of the outside (geometry); a groove of half a layer in a rubber of that modulus, threshold 20 to 100 J/m2 "
    "(Lake and Lindley 1965, from memory)"
)


def check_in_use(case: Case) -> tuple[Finding, ...]:
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
        source=f"{USE_SOURCE}; glass transition of the material: {glass.source}",
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
