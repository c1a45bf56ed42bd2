"""The window figure: for each label what is allowed, the value before and the value after."""

from __future__ import annotations

from profilesmith.review.render.figures.axis import Axis, axis, number_text, reaches_zero
from profilesmith.review.render.figures.drawing import (
    Drawing,
    DrawnText,
    Part,
    Rectangle,
    ShapeMark,
    Stroke,
    anchor,
    shortened,
    words_on_top,
)
from profilesmith.review.render.figures.figure import Figure

ROW, TRACK, FOOT = 3.0, 2.0, 1.9
NOTHING_FITS = "no value fits"
Parts = list[Part]


def draw(figure: Figure) -> Drawing:
    """Rows of tracks over one axis."""
    values = [point.y for series in figure.series for point in series.points]
    # A temperature's zero is arbitrary: its axis shows the neighbourhood of the values.
    scale = axis(values, from_zero=figure.unit != "°C" and reaches_zero(values), room=True, most=4)
    labels = figure.labels()
    bottom = len(labels) * ROW
    parts: Parts = [*foot(scale, bottom)]
    for row, label in enumerate(labels):
        parts += _row(figure, label, row * ROW, scale)
    return Drawing(bottom + FOOT, words_on_top(parts), _legend(figure))


def foot(scale: Axis, bottom: float, top: float = 0.0) -> Parts:
    """Grid lines down to the axis, and the numbers below it; the unit stands in the figure's head."""
    parts: Parts = []
    for tick in scale.ticks():
        x = scale.percent(tick)
        parts += [
            Stroke(x, top, x, bottom + 0.3, "grid"),
            DrawnText(x, bottom + 1.4, number_text(tick), anchor(x), "tick"),
        ]
    return parts


def _row(figure: Figure, label: str, top: float, scale: Axis) -> Parts:
    low, high, before, after = (figure.of_role(role).get(label) for role in ("low", "high", "before", "after"))
    y = top + TRACK
    parts: Parts = [DrawnText(0, top + 1.1, shortened(label), "start", "label")]
    numbers = [number_text(value) for value in (before, after) if value is not None]
    parts.append(DrawnText(100, top + 1.1, " → ".join(dict.fromkeys(numbers)), "end", "value"))
    parts.append(Stroke(0, y, 100, y, "track"))
    if low is not None and high is not None and low > high:
        parts.append(DrawnText(50, top + 1.1, NOTHING_FITS, "middle", "limit-name"))
        parts += [Stroke(scale.percent(x), y - 0.8, scale.percent(x), y + 0.8, "stop") for x in (high, low)]
    elif low is not None or high is not None:
        left = 0.0 if low is None else scale.percent(low)
        right = 100.0 if high is None else scale.percent(high)
        parts.append(Rectangle(left, right - left, y - 0.45, 0.9, "allowed"))
        parts += [Stroke(x, y - 0.8, x, y + 0.8, "stop") for x, end in ((left, low), (right, high)) if end is not None]
    if before is not None and after is not None and before != after:
        parts.append(Stroke(scale.percent(before), y, scale.percent(after), y, "way"))
    parts += [
        ShapeMark(scale.percent(value), y, shape)
        for value, shape in ((before, "before"), (after, "after"))
        if value is not None
    ]
    return parts


def _legend(figure: Figure) -> tuple[tuple[str, str], ...]:
    roles = {series.role for series in figure.series}
    names = {series.role: series.name for series in figure.series}
    shown = [(role, names[role]) for role in ("before", "after") if role in roles]
    return (*shown, *((("allowed", _allowed(names)),) if roles & {"low", "high"} else ()))


def _allowed(names: dict[str, str]) -> str:
    """The words for the band: the names of its ends, where they say more than the roles do."""
    ends = [names[role] for role in ("low", "high") if names.get(role, role) != role]
    return " to ".join(ends) or "allowed"
