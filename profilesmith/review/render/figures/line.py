"""The line figure: lines over a number, with named points and limits."""

from __future__ import annotations

from profilesmith.review.render.figures.axis import Axis, axis, number_text
from profilesmith.review.render.figures.drawing import Curve, Drawing, Sign, Stroke, Words, shortened, words_on_top
from profilesmith.review.render.figures.figure import Figure, Series
from profilesmith.review.render.figures.window import FOOT, Parts, foot

TOP, HEIGHT = 1.5, 14.0
BOTTOM = TOP + HEIGHT


def draw(figure: Figure) -> Drawing:
    """A box with both axes from zero where the values allow it."""
    xs = [*(float(point.x) for series in figure.series for point in series.points), *(mark.x for mark in figure.marks)]
    ys = [*(point.y for series in figure.series for point in series.points), *(mark.y for mark in figure.marks)]
    across = axis(xs, from_zero=figure.x_unit != "°C")
    up = axis([*ys, *(limit.value for limit in figure.limits)], from_zero=figure.unit != "°C")
    parts: Parts = foot(across, BOTTOM, TOP)
    if figure.x_name or figure.x_unit:
        parts.append(Words(100, BOTTOM + 2.8, shortened(", ".join(part for part in (figure.x_name, figure.x_unit) if part)), "end", "tick"))
    for tick in up.ticks():
        y = _down(up, tick)
        parts += [Stroke(0, y, 100, y, "grid"), Words(0, y + 0.35, number_text(tick), "end", "tick", -0.5)]
    for number, limit in enumerate(sorted(figure.limits, key=lambda limit: limit.value)):
        y = _down(up, limit.value)
        # Every other name stands on the left: two limits that lie close together stay readable.
        side = (100, "end") if number % 2 == 0 else (0, "start")
        words = f"{shortened(limit.name, 24)} {figure.shown(limit.value)}"
        parts += [Stroke(0, y, 100, y, "limit"), Words(side[0], y - 0.3, words, side[1], "limit-name")]
    for place, series in enumerate(figure.series):
        parts.append(Curve(TOP, HEIGHT, _points(series, across, up), f"line{place % 4}"))
    parts += [Sign(across.percent(mark.x), _down(up, mark.y), mark.role or "before") for mark in figure.marks]
    lines = tuple((f"line-line{place % 4}", series.name) for place, series in enumerate(figure.series))
    marks = tuple((mark.role or "before", f"{mark.name}: {figure.shown(mark.y)} at {figure.shown(mark.x)} {figure.x_unit}".strip()) for mark in figure.marks)
    return Drawing(BOTTOM + FOOT + 1.4, words_on_top(parts), lines + marks, gutter=True)


def _down(up: Axis, value: float) -> float:
    return BOTTOM - up.share(value) * HEIGHT


def _points(series: Series, across: Axis, up: Axis) -> tuple[tuple[float, float], ...]:
    """In percent of the box, which is as wide as the figure."""
    ordered = sorted(series.points, key=lambda point: float(point.x))
    return tuple((across.percent(float(point.x)), 100 - up.share(point.y) * 100) for point in ordered)
