"""Which figures tell something: those where a value moved or passes a limit, and whose lines part enough to be seen."""

from __future__ import annotations

from collections.abc import Iterable

from profilesmith.review.render.figures.figure import Figure, FigurePoint, Series

SEEN = 0.02
"""A difference of less than this share of the largest value is no more than a line's own width on a screen."""


def telling(figures: Iterable[Figure], is_change: bool) -> tuple[Figure, ...]:
    """The figures that are drawn. is_change: of two profiles; of one alone there is nothing that could have moved."""
    return tuple(shown for figure in figures if (shown := _telling(figure, is_change)) is not None)


def _telling(figure: Figure, is_change: bool) -> Figure | None:
    if figure.fault or not figure.series:
        return figure
    if figure.kind == "line":
        return figure if _parts(figure) else None
    if figure.kind == "window":
        return _rows(figure, [label for label in figure.labels() if _row_tells(figure, label, is_change)])
    passes = any(
        point.y > limit.value for series in figure.series for point in series.points for limit in figure.limits
    )
    return figure if passes or not is_change or _moved(figure) else None


def _moved(figure: Figure) -> bool:
    before, after = figure.of_role("before"), figure.of_role("after")
    roles = {series.role for series in figure.series}
    return not {"before", "after"} <= roles or before != after


def _row_tells(figure: Figure, label: str, is_change: bool) -> bool:
    low, high, before, after = (figure.of_role(role).get(label) for role in ("low", "high", "before", "after"))
    if not is_change or before != after or after is None:  # without values it is a bracket
        return True
    return after is not None and ((low is not None and after < low) or (high is not None and after > high))


def _rows(figure: Figure, labels: list[str]) -> Figure | None:
    """The figure with some of its rows; none where that leaves nothing."""
    if not labels:
        return None
    kept = (
        Series(item.name, item.role, tuple(point for point in item.points if point.x in labels))
        for item in figure.series
    )
    return _with(figure, tuple(item for item in kept if item.points))


def _with(figure: Figure, series: tuple[Series, ...]) -> Figure:
    return Figure(id=figure.id, title=figure.title, kind=figure.kind, unit=figure.unit, series=series, note=figure.note)


def _parts(figure: Figure) -> bool:
    """Whether the lines go anywhere, and, where they are of before and after, lie apart from each other."""
    points = [point for series in figure.series for point in series.points]
    most = max((abs(point.y) for point in points), default=0.0)
    if not most or _spread(point.y for point in points) < SEEN * most:
        return False
    if {"before", "after"} <= {mark.role for mark in figure.marks} and len(figure.series) > 1:
        return any(_spread(values) >= SEEN * most for values in _by_place(points).values())
    return True


def _by_place(points: Iterable[FigurePoint]) -> dict[float, list[float]]:
    heights: dict[float, list[float]] = {}
    for point in points:
        heights.setdefault(float(point.x), []).append(point.y)
    return heights


def _spread(values: Iterable[float]) -> float:
    numbers = list(values)
    return max(numbers, default=0.0) - min(numbers, default=0.0)
