"""The table beside a figure: the same numbers as text, for everybody who does not look at pictures."""

from __future__ import annotations

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.review.render.figures.axis import number_text
from profilesmith.review.render.figures.drawing import shortened
from profilesmith.review.render.figures.figure import Figure

MOST_ROWS = 11


class Table(NamedTuple):
    """head: the names of the columns; rows: as many cells each. left_out: how many points of a line are not shown."""

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    left_out: int = 0


def table(figure: Figure) -> Table:
    """A figure's numbers, in its unit, which stands above both."""
    return {"bars": _bars, "line": _line, "window": _window}[figure.kind](figure)


def _cell(figure: Figure, value: float | None) -> str:
    return "–" if value is None else figure.shown(value)


def _bars(figure: Figure) -> Table:
    columns = [{str(point.x): point.y for point in series.points} for series in figure.series]
    rows = [(label, *(_cell(figure, column.get(label)) for column in columns)) for label in figure.labels()]
    limits = [(limit.name, *(figure.shown(limit.value) for _ in columns)) for limit in figure.limits]
    return Table(("", *(shortened(series.name, 24) for series in figure.series)), (*rows, *limits))


def _headed(name: str, unit: str) -> str:
    return f"{name}, {unit}" if unit else name


def _window(figure: Figure) -> Table:
    low, high, before, after = (figure.of_role(role) for role in ("low", "high", "before", "after"))
    points = [(role, values) for role, values in (("before", before), ("after", after)) if values]
    names = {series.role: series.name for series in figure.series}
    rows = [
        (label, *(_cell(figure, values.get(label)) for _, values in points), allowed(low.get(label), high.get(label)))
        for label in figure.labels()
    ]
    return Table(("", *(shortened(names[role], 24) for role, _ in points), "allowed"), tuple(rows))


def allowed(low: float | None, high: float | None) -> str:
    """``at most 40``, ``at least 30``, ``210 to 220``."""
    if low is None or high is None:
        return (
            f"at most {number_text(high)}"
            if high is not None
            else f"at least {number_text(low)}"
            if low is not None
            else "any"
        )
    return number_text(low) if low == high else f"{number_text(low)} to {number_text(high)}"


def _line(figure: Figure) -> Table:
    xs = sorted({float(point.x) for series in figure.series for point in series.points})
    # Evenly picked, both ends among them.
    last = len(xs) - 1
    picked = xs if len(xs) <= MOST_ROWS else [xs[round(number * last / (MOST_ROWS - 1))] for number in range(MOST_ROWS)]
    columns = [{float(point.x): point.y for point in series.points} for series in figure.series]
    rows = [(figure.shown(x), *(_cell(figure, column.get(x)) for column in columns)) for x in picked]
    marks = [
        (f"{figure.shown(mark.x)} ({mark.name})", figure.shown(mark.y), *("" for _ in columns[1:]))
        for mark in figure.marks
    ]
    limits = [(limit.name, *(figure.shown(limit.value) for _ in columns)) for limit in figure.limits]
    head = (_headed(figure.x_name or "x", figure.x_unit), *(shortened(series.name, 24) for series in figure.series))
    return Table(head, (*rows, *marks, *limits), len(xs) - len(picked))
