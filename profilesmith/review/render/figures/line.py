"""The line figure: lines over a number, with named points and limits."""

from __future__ import annotations

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.review.render.figures.axis import Axis, axis, number_text, reaches_zero
from profilesmith.review.render.figures.drawing import (
    Curve,
    Drawing,
    DrawnText,
    ShapeMark,
    Stroke,
    shortened,
    words_on_top,
)
from profilesmith.review.render.figures.figure import Figure, Series
from profilesmith.review.render.figures.limit_names import curve_of, room, spots
from profilesmith.review.render.figures.window import FOOT, Parts, foot

HEIGHT = 14.0


class Box(NamedTuple):
    """Where the lines are drawn. across, up: its axes; top: of the box, in em."""

    across: Axis
    up: Axis
    top: float

    @property
    def bottom(self) -> float:
        return self.top + HEIGHT

    def down(self, value: float) -> float:
        return self.bottom - self.up.share(value) * HEIGHT

    def points(self, series: Series) -> tuple[tuple[float, float], ...]:
        """In percent of the box, which is as wide as the figure."""
        ordered = sorted(series.points, key=lambda point: float(point.x))
        return tuple((self.across.percent(float(point.x)), 100 - self.up.share(point.y) * 100) for point in ordered)


def draw(figure: Figure) -> Drawing:
    """A box with both axes from zero where the values allow it."""
    xs = [*(float(point.x) for series in figure.series for point in series.points), *(mark.x for mark in figure.marks)]
    ys = [*(point.y for series in figure.series for point in series.points), *(mark.y for mark in figure.marks)]
    across = axis(xs, from_zero=figure.x_unit != "°C")
    ys += [limit.value for limit in figure.limits]
    up = axis(ys, from_zero=figure.unit != "°C" and reaches_zero(ys))
    box = Box(across, up, room(len(figure.limits)))
    parts: Parts = foot(across, box.bottom, box.top)
    if figure.x_name or figure.x_unit:
        parts.append(
            DrawnText(
                100,
                box.bottom + 2.8,
                shortened(", ".join(part for part in (figure.x_name, figure.x_unit) if part)),
                "end",
                "tick",
            )
        )
    for tick in up.ticks():
        y = box.down(tick)
        parts += [Stroke(0, y, 100, y, "grid"), DrawnText(0, y + 0.35, number_text(tick), "end", "tick", -0.5)]
    parts += _limits(figure, box)
    for place, series in enumerate(figure.series):
        parts.append(Curve(box.top, HEIGHT, box.points(series), f"line{place % 4}"))
    parts += [ShapeMark(across.percent(mark.x), box.down(mark.y), mark.role or "before") for mark in figure.marks]
    lines = tuple((f"line-line{place % 4}", series.name) for place, series in enumerate(figure.series))
    marks = tuple(
        (
            mark.role or "before",
            f"{mark.name}: {figure.shown(mark.y)} at {figure.shown(mark.x)} {figure.x_unit}".strip(),
        )
        for mark in figure.marks
    )
    return Drawing(box.bottom + FOOT + 1.4, words_on_top(parts), lines + marks, gutter=True)


def _limits(figure: Figure, box: Box) -> Parts:
    lines = [box.down(limit.value) for limit in figure.limits]
    curves = [
        curve_of([(x / 100, box.top + y * HEIGHT / 100) for x, y in box.points(series)]) for series in figure.series
    ]
    parts: Parts = []
    for limit, y, spot in zip(figure.limits, lines, spots(lines, curves), strict=True):
        side = (100, "end") if spot.right else (0, "start")
        words = f"{shortened(limit.name, 24)} {figure.shown(limit.value)}"
        parts += [Stroke(0, y, 100, y, "limit"), DrawnText(side[0], spot.base, words, side[1], "limit-name")]
    return parts
