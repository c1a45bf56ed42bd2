"""The bars figure: for each label one bar a series, and limits as lines across all of them."""

from __future__ import annotations

from profilesmith.review.render.figures.axis import Axis, axis
from profilesmith.review.render.figures.drawing import (
    Drawing,
    DrawnText,
    Rectangle,
    Stroke,
    anchor,
    shortened,
    words_on_top,
)
from profilesmith.review.render.figures.figure import Figure, Series
from profilesmith.review.render.figures.window import FOOT, Parts, foot

LABEL, BAR, GAP = 1.4, 0.8, 0.5
LIMIT_NAME = 1.5


def draw(figure: Figure) -> Drawing:
    """Bars from zero; a row is a label's name, its values and its bars."""
    values = [point.y for series in figure.series for point in series.points]
    scale = axis([*values, *(limit.value for limit in figure.limits)], from_zero=True)
    head = LIMIT_NAME * len(figure.limits)
    height = LABEL + BAR * len(figure.series) + GAP
    labels = figure.labels()
    bottom = head + height * len(labels)
    parts: Parts = foot(scale, bottom, head)
    for number, label in enumerate(labels):
        parts += _row(figure, label, head + number * height, scale)
    for number, limit in enumerate(figure.limits):
        x = scale.percent(limit.value)
        # Only across the bars: a line never goes through a name or a number.
        rows = [head + height * row for row in range(len(labels))]
        parts += [Stroke(x, top + LABEL - 0.15, x, top + height, "limit") for top in rows]
        parts.append(
            DrawnText(
                x,
                LIMIT_NAME * number + 1.0,
                f"{shortened(limit.name, 24)} {figure.shown(limit.value)}",
                anchor(x),
                "limit-name",
            )
        )
    bars = tuple((f"bar-{_look(series, place)}", series.name) for place, series in enumerate(figure.series))
    return Drawing(bottom + FOOT, words_on_top(parts), bars)


def _look(series: Series, place: int) -> str:
    return series.role if series.role in ("before", "after") else f"series{place % 4}"


def _row(figure: Figure, label: str, top: float, scale: Axis) -> Parts:
    values = [{str(point.x): point.y for point in series.points}.get(label) for series in figure.series]
    text = " → ".join(figure.shown(value) for value in values if value is not None)
    parts: Parts = [
        DrawnText(0, top + 1.05, shortened(label), "start", "label"),
        DrawnText(100, top + 1.05, text, "end", "value"),
    ]
    zero = scale.percent(0)
    for place, value in enumerate(values):
        if value is not None:
            end = scale.percent(value)
            look = _look(figure.series[place], place)
            parts.append(Rectangle(min(zero, end), abs(end - zero), top + LABEL + place * BAR, BAR - 0.1, look))
    return parts
