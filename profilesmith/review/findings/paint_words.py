"""Words on paint at the bend."""

from collections.abc import Mapping

from profilesmith.checks.amounts import few, shown
from profilesmith.review.findings.said import Numbers, Say, Words, fixed, sentences

TITLE = "Paint at the bend"
ORDER = "Sand before the flexible primer and paint in light coats; a hard clear coat is the first thing that cracks."
TACKY = "Plasticiser that moves out of the plastic may keep paint tacky: wait for a scrap to dry."
TRY = "Bend a painted scrap, cold too: paints stiffen in the cold."


def _advice(numbers: Numbers) -> str:
    return sentences(ORDER, TACKY if "tacky" in numbers.also else "")


def _needed(numbers: Numbers) -> str:
    bend, most = numbers["bend"], shown(numbers.amounts["after"].high, "%")
    return f"The bend stretches the paint by {bend}, and more in the grooves between layers: it must stretch {most}."


def _own(end: str) -> Say:
    """Beside what this paint does."""

    def say(numbers: Numbers) -> str:
        radius = f", enough for a radius of {numbers.span('radius')}" if numbers.get("radius") else ""
        return f"This one stretches {few(numbers.number('most'))} %{radius}{end}"

    return say


NOT_JUDGED: Mapping[str, tuple[str, bool, str]] = {
    "bend-not-said": ("nobody said how thick the part is and how tightly it is bent", True, ""),
    "folded-flat": ("the part is folded flat", False, "How does a painted scrap stand the fold?"),
    "bend-too-sharp": ("the bend is too sharp for its thickness", False, "How does a painted scrap stand the bend?"),
}
JUDGED: Mapping[str, Say] = {
    "paint-to-be-checked": fixed(f"Check its data sheet. {TRY}"),
    "hard-paint-may-crack": fixed(f"A hard paint may crack there: check its data sheet. {TRY}"),
    "hard-paint-likely-cracks": fixed(
        "A hard paint is likely to crack there: no more than 1 to 3 % is asked even of picture varnish."
    ),
    "paint-stretches-enough": _own(". Adhesion, cold and many bends are not judged: bend a painted scrap."),
    "paint-likely-cracks": _own(": likely to crack."),
    "paint-may-crack": _own(f": it may crack. {TRY}"),
}


def _judged(more: Say) -> Say:
    return lambda n: sentences(_needed(n), more(n), _advice(n))


WORDS: Mapping[tuple[str, str], Words] = {
    **{
        ("coating", reason): Words(TITLE, fixed(text), asked=asked, known=_advice, ask=ask)
        for reason, (text, asked, ask) in NOT_JUDGED.items()
    },
    **{("coating", reason): Words(TITLE, _judged(more)) for reason, more in JUDGED.items()},
}
