"""Coating: how far the paint must stretch at the bend, and which bend it stands; what nobody said is asked."""

from profilesmith.checks.amounts import bracket, few, percent
from profilesmith.checks.case import Case, ask
from profilesmith.checks.finding import not_judged, not_said
from profilesmith.checks.materials import of_spool
from profilesmith.ledger.judgement import Amount, Finding
from profilesmith.physics.answer import Bracket, NotValid, spanning
from profilesmith.physics.bending import coated_radius_bracket_mm, coating_strain_bracket

CHECK, TITLE = "coating", "Paint at the bend"
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
ORDER = "Sand before the flexible primer and paint in light coats; a hard clear coat is the first thing that cracks."
TACKY = "Plasticiser that moves out of the plastic may keep paint tacky: wait for a scrap to dry."
TRY = "Bend a painted scrap, cold too: paints stiffen in the cold."


def check(case: Case) -> tuple[Finding, ...]:
    """None for a part that is not painted."""
    if case.word("part.coating") not in COATED:
        return ()
    strain, plastic = _strain(case), of_spool(case)
    advice = f"{ORDER} {TACKY}" if plastic is not None and plastic.flexible and not plastic.rubbery else ORDER
    if isinstance(strain, Finding):
        known = f"{strain.beside_question or ''} {advice}".lstrip()
        return (strain._replace(text=f"{strain.text} {advice}", beside_question=known),)
    told = case.quantity("part.coating_elongation")
    found = _unknown(case, strain) if told is None else _against(case, strain, told / 100)
    return (found._replace(text=f"{found.text} {advice}"),)


def standing_radius_mm(case: Case, stretch: float) -> Bracket | NotValid | None:
    """The sharpest bend that a paint of this stated stretch stands; None where the part's thickness is not known."""
    thickness = case.quantity("part.thickness")
    if thickness is None:
        return None
    found = [coated_radius_bracket_mm(thickness, film, stretch / GROOVES) for film in _films(case)]
    valid = [item for item in found if isinstance(item, Bracket)]
    return spanning(valid) if len(valid) == len(found) else next(item for item in found if isinstance(item, NotValid))


def _finding(strain: Bracket, limit: str = "", source: str = SOURCE) -> Finding:
    need = Bracket(strain.low * GROOVES, strain.high * GROOVES)
    text = f"The bend stretches the paint by {bracket(strain, '%', 100)}, and more in the grooves between layers: "
    text += f"it must stretch {percent(need.high)}."
    return Finding(
        CHECK,
        "note",
        TITLE,
        text,
        after=bracket(need, "%", 100),
        limit=limit,
        source=source,
        reason="paint-to-be-checked",
        amounts=(Amount("after", need.low * 100, need.high * 100, "%"),),
    )


def _unknown(case: Case, strain: Bracket) -> Finding:
    """Nobody told how far this paint stretches."""
    finding = _finding(strain)._replace(ask=ask("part.coating_elongation"))
    if case.word("part.coating") == "elastic":
        return finding._replace(text=f"{finding.text} Check its data sheet. {TRY}")
    finding = finding._replace(source=f"{SOURCE}; {VARNISH_SOURCE}")
    if strain.low > VARNISH.high:
        text = "A hard paint is likely to crack there: no more than 1 to 3 % is asked even of picture varnish."
        return finding._replace(verdict="caution", text=f"{finding.text} {text}", reason="paint-likely-cracks")
    return finding._replace(text=f"{finding.text} A hard paint may crack there: check its data sheet. {TRY}")


def _against(case: Case, strain: Bracket, stretch: float) -> Finding:
    finding = _finding(strain, f"at most {percent(stretch)}")
    own = f"This one stretches {few(stretch * 100)} %"
    radius = standing_radius_mm(case, stretch)
    if isinstance(radius, Bracket):
        own += f", enough for a radius of {bracket(radius, 'mm')}"
    if strain.high * GROOVES <= stretch:
        text = f"{finding.text} {own}. Adhesion, cold and many bends are not judged: bend a painted scrap."
        room = percent(stretch - strain.high * GROOVES)
        return finding._replace(verdict="passed", text=text, headroom=room, reason="paint-stretches-enough")
    if strain.low > stretch:
        return finding._replace(
            verdict="caution", text=f"{finding.text} {own}: likely to crack.", reason="paint-likely-cracks"
        )
    return finding._replace(text=f"{finding.text} {own}: it may crack. {TRY}", reason="paint-may-crack")


def _films(case: Case) -> tuple[float, ...]:
    """Thicknesses that the paint may have [mm]."""
    coat = case.quantity("part.coating_thickness")
    return (0.0, THICKEST_MM) if coat is None else (coat,)


def _strain(case: Case) -> Bracket | Finding:
    thickness, radius = case.quantity("part.thickness"), case.quantity("part.bend_radius")
    if thickness is None or radius is None:
        missing = "part.bend_radius" if radius is None else "part.thickness"
        return not_said(CHECK, TITLE, "how thick the part is and how tightly it is bent", ask(missing))
    if radius == 0:
        return not_judged(CHECK, TITLE, "the part is folded flat", "How does a painted scrap stand the fold?")
    found = [coating_strain_bracket(thickness, film, radius) for film in _films(case)]
    valid = [item for item in found if isinstance(item, Bracket)]
    if len(valid) < len(found):
        reason = "the bend is too sharp for its thickness"
        return not_judged(CHECK, TITLE, reason, "How does a painted scrap stand the bend?")
    return spanning(valid)
