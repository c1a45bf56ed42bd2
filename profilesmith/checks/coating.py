"""Coating: does the paint stretch as far as the part's outside does at the bend?"""

from profilesmith.checks.amounts import bracket, few, percent
from profilesmith.checks.case import Case, ask
from profilesmith.checks.finding import not_judged, not_said
from profilesmith.ledger.judgement import Finding
from profilesmith.physics.answer import Bracket, spanning
from profilesmith.physics.bending import coating_strain_bracket

CHECK, TITLE = "coating", "Paint at the bend"
# Elongation of dried paints: 1 to 3 % for hard ones (least for varnishes after Feller and Curran 1985, through a
# conservation text), 20 to 100 % for two-part elastic ones [from memory].
CLASSES = {"rigid": Bracket(0.01, 0.03), "elastic": Bracket(0.2, 1.0)}
THICKEST_MM = 0.1  # of the paint, where nobody told (own assumption)
SOURCE = (
    "strain of the coating's outside, from pure bending to the table of ASTM D522 method B; hard paints stretch 1 to 3 % "
    "(Feller and Curran 1985), elastic ones 20 to 100 % (from memory)"
)


def check(case: Case) -> tuple[Finding, ...]:
    """None for a part that is not painted."""
    coating = case.word("part.coating")
    if coating not in CLASSES:
        return ()
    strain = _strain(case)
    if isinstance(strain, Finding):
        return (strain,)
    told = case.quantity("part.coating_elongation")
    limit = Bracket(told / 100, told / 100) if told is not None else CLASSES[coating]
    finding = Finding(
        CHECK,
        "passed",
        TITLE,
        f"The paint is stretched by {bracket(strain, '%', 100)}.",
        after=bracket(strain, "%", 100),
        limit=f"at most {bracket(limit, '%', 100)}",
        headroom=percent(limit.low - strain.high) if strain.high < limit.low else "",
        source=SOURCE,
        ask="" if told is not None else ask("part.coating_elongation"),
    )
    own = (
        f"it stretches {few(limit.low * 100)} %"
        if told is not None
        else f"{_kind(coating)} stretches {bracket(limit, '%', 100)}"
    )
    if strain.high <= limit.low:
        return (
            finding._replace(text=f"{finding.text} By that it holds: {own}. Adhesion and many bends are not judged."),
        )
    if strain.low > limit.high:
        return (finding._replace(verdict="caution", text=f"{finding.text} It will crack: {own}."),)
    return (finding._replace(verdict="note", text=f"{finding.text} It may crack: {own}. Try it on a scrap."),)


def _kind(coating: str) -> str:
    return "a hard paint" if coating == "rigid" else "an elastic paint"


def _strain(case: Case) -> Bracket | Finding:
    thickness, radius = case.quantity("part.thickness"), case.quantity("part.bend_radius")
    if thickness is None or radius is None:
        missing = "part.bend_radius" if radius is None else "part.thickness"
        return not_said(CHECK, TITLE, "how thick the part is and how tightly it is bent", ask(missing))
    if radius == 0:
        return not_judged(CHECK, TITLE, "the part is folded flat", "How does a painted scrap stand the fold?")
    coat = case.quantity("part.coating_thickness")
    found = [
        coating_strain_bracket(thickness, film, radius) for film in ((0.0, THICKEST_MM) if coat is None else (coat,))
    ]
    valid = [item for item in found if isinstance(item, Bracket)]
    if len(valid) < len(found):
        return not_judged(
            CHECK, TITLE, "the bend is too sharp for its thickness", "How does a painted scrap stand the bend?"
        )
    return spanning(valid)
