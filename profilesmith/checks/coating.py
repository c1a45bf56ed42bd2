"""Coating: how far the paint must stretch at the bend, and which bend it stands; what nobody said is asked."""

from profilesmith.checks.case import Case, ask
from profilesmith.checks.finding import amount, between
from profilesmith.checks.materials import of_spool
from profilesmith.ledger.judgement import Amount, Finding, Verdict
from profilesmith.physics.answer import Bracket, NotValid, spanning
from profilesmith.physics.bending import coated_radius_bracket_mm, coating_strain_bracket

CHECK = "coating"
COATED = ("rigid", "elastic")
# A suggested least elongation of picture varnishes, Feller and Curran 1985, through a conservation text.
VARNISH = Bracket(0.01, 0.03)
GROOVES = 2.0  # layer lines across the bend gather the stretch (own assumption)
THICKEST_MM = 0.1  # of the paint, where nobody told (own assumption)
SOURCE = (
    "strain of the coating's outside, from pure bending to the table of ASTM D522 method B; "
    "twice as much for the grooves "
    "between layers: own assumption"
)
VARNISH_SOURCE = (
    "1 to 3 % is a suggested minimum for picture varnish (Feller and Curran 1985, through a conservation text)"
)


def check(case: Case) -> tuple[Finding, ...]:
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
    return Finding(CHECK, verdict, reason=reason, amounts=amounts, source=SOURCE)


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
        return Finding(CHECK, "not judged", reason="bend-not-said", ask=ask(missing))
    if radius == 0:
        return Finding(CHECK, "not judged", reason="folded-flat")
    strains = [coating_strain_bracket(thickness, film, radius) for film in _films(case)]
    valid = [item for item in strains if isinstance(item, Bracket)]
    if len(valid) < len(strains):
        return Finding(CHECK, "not judged", reason="bend-too-sharp")
    return spanning(valid)
