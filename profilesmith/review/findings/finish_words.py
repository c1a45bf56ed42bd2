"""Words on faces between the lines of the filling, on pillows, sanding and paint."""

from collections.abc import Mapping

from profilesmith.checks.amounts import few, mm, shown
from profilesmith.checks.face import PILLOW_SKIN_MM
from profilesmith.foundation.words import plural
from profilesmith.review.findings import Numbers, Say, Words, fixed, sentences

FACE, PILLOW = "Faces between the lines of the filling", "Closing layers over sparse filling"
WALL, SKIN, LINES = "Wall left after sanding", "Closing layers left after sanding", "Sanding and layer lines"
CURE = "Lay more closing layers or walls, or denser filling."
SMEARS = "Plastic so soft smears rather than sands: lay filler or primer on it, and sand that."
STICKY = "Heat guns and solvents do not smooth it: it turns sticky and warps."  # common practice, no source


def _face(more: str) -> Say:
    def say(numbers: Numbers) -> str:
        text = f"A face of {numbers['skin']} spans {numbers.span('span')} between the lines of the filling"
        if numbers.get("after"):
            return f"{text} and gives by {numbers.span('after')} under {numbers['pressure']}: {more}"
        return f"{text} and will dent under {numbers['pressure']}: {more}"

    return say


def _face_short(numbers: Numbers) -> dict[str, str]:
    return {
        "before": numbers.span("before") if numbers.get("before") else "",
        "after": numbers.span("after") if numbers.get("after") else "will dent",
        "limit": f"at most {numbers['most']}",
    }


def _pillow(numbers: Numbers) -> str:
    apart = numbers.span("span")
    return (
        f"Top layers hang through between lines {apart} apart and come out as pillows or with holes. "
        f"Denser filling, or {mm(PILLOW_SKIN_MM)} of top layers, closes them."
    )


def _sanded(first: Say) -> Say:
    """With what holds of soft plastic besides."""
    return lambda n: sentences(
        first(n),
        STICKY if "heat-does-not-smooth" in n.also else "",
        SMEARS if "smears" in n.also else "",
    )


def _walls(numbers: Numbers) -> str:
    return plural(round(numbers.number("walls-needed")), "wall")


def _left(numbers: Numbers) -> str:
    return f"Of a wall of {numbers['wall']}, sanding {numbers['sanded']} off leaves {numbers['after']}."


def _thin(numbers: Numbers) -> str:
    return f"{_left(numbers)} {_walls(numbers)} would leave {numbers['least']}."


def _through(numbers: Numbers) -> str:
    off, wall = numbers["sanded"], numbers["wall"]
    return f"Sanding {off} off goes through the whole wall of {wall}. Lay {_walls(numbers)} or sand less."


def _wall_short(numbers: Numbers) -> dict[str, str]:
    bead = " (one bead)" if "least-is-one-bead" in numbers.also else ""
    return {"limit": f"at least {numbers['least']}{bead}"}


def _skin(numbers: Numbers) -> str:
    return f"Of closing layers of {numbers['skin']}, sanding {numbers['sanded']} off leaves {numbers['after']}."


def _skin_through(numbers: Numbers) -> str:
    return (
        f"Sanding {numbers['sanded']} off a flat face goes through all closing layers ({numbers['skin']}). "
        "Lay more of them or sand less."
    )


def _lines(numbers: Numbers) -> str:
    return f"Lines between layers of an upright wall are up to {numbers['after']} deep"


def _reached(numbers: Numbers) -> str:
    slope = ""
    if "slope-not-reached" in numbers.also:
        slope = f"Steps on a slope of 45° are {numbers['slope-steps']} deep, which it does not reach."
    return sentences(f"{_lines(numbers)}; the allowance reaches their bottom.", slope)


def _too_deep(numbers: Numbers) -> str:
    reach = f"{numbers['most']} of sanding does not reach their bottom"
    return f"{_lines(numbers)}: {reach}, so fill them or lay thinner layers."


GIVES: Mapping[str, str] = {
    "face-stands": "paper and fingers hardly feel the lines.",
    "face-may-give": f"paper may sand it into waves. {CURE}",
    "face-gives": f"paper sands it into waves. {CURE}",
    "face-dents": f"paper sands it into waves. {CURE}",
}
SAID: Mapping[tuple[str, str], tuple[str, Say]] = {
    ("sanding-wall", "wall-left"): (WALL, _left),
    ("sanding-wall", "wall-too-thin"): (WALL, _thin),
    ("sanding-wall", "wall-sanded-through"): (WALL, _through),
    ("sanding-skin", "skin-left"): (SKIN, _skin),
    ("sanding-skin", "skin-too-thin"): (
        SKIN,
        lambda n: f"{_skin(n)} The paper soon reaches the filling: lay more closing layers.",
    ),
    ("sanding-skin", "skin-sanded-through"): (SKIN, _skin_through),
    ("sanding-lines", "lines-reached"): (LINES, _reached),
    ("sanding-lines", "lines-too-deep"): (LINES, _too_deep),
}
SHORT = {WALL: _wall_short, SKIN: lambda _: {"limit": "more than one layer"}, LINES: None}
_FINISH: Mapping[tuple[str, str], Words] = {
    ("face", "filament-softness-not-said"): Words(FACE, fixed("nobody said how soft the filament is"), asked=True),
    **{("face", reason): Words(FACE, _face(more), short=_face_short) for reason, more in GIVES.items()},
    ("pillowing", "top-layers-pillow"): Words(PILLOW, _pillow),
    ("sanding-wall", "allowance-not-said"): Words(WALL, fixed("nobody said how much is sanded off"), asked=True),
    ("sanding-wall", "wall-not-told"): Words(
        WALL, fixed("the text does not tell a wall's count, bead width and layer height")
    ),
    **{key: Words(title, _sanded(say), short=SHORT[title]) for key, (title, say) in SAID.items()},
}


PAINT = "Paint at the bend"
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


_PAINT: Mapping[tuple[str, str], Words] = {
    **{
        ("coating", reason): Words(PAINT, fixed(text), asked=asked, known=_advice, ask=ask)
        for reason, (text, asked, ask) in NOT_JUDGED.items()
    },
    **{("coating", reason): Words(PAINT, _judged(more)) for reason, more in JUDGED.items()},
}


WORDS: Mapping[tuple[str, str], Words] = {**_FINISH, **_PAINT}
