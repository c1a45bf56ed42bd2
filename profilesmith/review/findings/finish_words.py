"""Words on faces between the lines of the filling, on pillows and on sanding."""

from collections.abc import Mapping

from profilesmith.checks.amounts import mm
from profilesmith.checks.face import PILLOW_SKIN_MM
from profilesmith.foundation.words import plural
from profilesmith.review.findings.said import Numbers, Say, Words, fixed, sentences

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
WORDS: Mapping[tuple[str, str], Words] = {
    ("face", "filament-softness-not-said"): Words(FACE, fixed("nobody said how soft the filament is"), asked=True),
    **{("face", reason): Words(FACE, _face(more), short=_face_short) for reason, more in GIVES.items()},
    ("pillowing", "top-layers-pillow"): Words(PILLOW, _pillow),
    ("sanding-wall", "allowance-not-said"): Words(WALL, fixed("nobody said how much is sanded off"), asked=True),
    ("sanding-wall", "wall-not-told"): Words(
        WALL, fixed("the text does not tell a wall's count, bead width and layer height")
    ),
    **{key: Words(title, _sanded(say), short=SHORT[title]) for key, (title, say) in SAID.items()},
}
