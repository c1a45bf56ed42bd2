"""The figures of a review as data, and the reader of ``review.figures``.

Whoever works out consequences (flow, stiffness, time) puts a list of plain tables there; this room only draws them.
One table::

    {
      "id": "flow", "title": "Flow of each feature", "kind": "bars" | "line" | "window", "unit": "mm³/s",
      "series": [{"name": "before", "role": "before", "points": [["outer wall", 6.1], ...]}],
      "limits": [{"name": "limit of the spool", "value": 4}],
      "marks": [{"name": "before", "role": "before", "x": 15, "y": 1.0}],
      "note": "one sentence on what was assumed",
      "x_name": "infill", "x_unit": "%", "y_name": "stiffness"
    }

bars    points are [label, value]; a series a colour, a label a row; limits are lines across all rows.
line    points are [x, y]; marks are single points on the lines; limits are lines at a y.
window  points are [label, value]; the roles are ``low`` and ``high`` (what is allowed; a label without one is open on
        that side), ``before`` and ``after``. A bracket, such as a time factor, has only ``low`` and ``high``.

role may be left out where the name is the role. limits, marks, note and the names of the axes may be left out.
All values of a figure are in ``unit`` (of an x axis in ``x_unit``), as finite numbers.

A ledger may come from a stranger: what does not have this shape is left out, and the page says so in its place.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.review.render.figures.axis import number_text
from profilesmith.review.wording import visible

KINDS = ("bars", "line", "window")
ROLES = ("before", "after", "low", "high")
MOST_FIGURES, MOST_SERIES, MOST_POINTS = 40, 8, 400
LARGEST = 1e12


class FigurePoint(NamedTuple):
    """x: a label (bars, window) or a number (line)."""

    x: str | float
    y: float


class Series(NamedTuple):
    """role: one of ROLES, or "" for a series of its own."""

    name: str
    role: str
    points: tuple[FigurePoint, ...]


class LimitLine(NamedTuple):
    """A line that a value should not pass."""

    name: str
    value: float


class Mark(NamedTuple):
    """One point of a line figure that is named."""

    name: str
    role: str
    x: float
    y: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A figure as the module's docstring describes it. fault: why it cannot be drawn; then the rest is empty."""

    id: str
    title: str
    kind: str = "bars"
    unit: str = ""
    series: tuple[Series, ...] = ()
    limits: tuple[LimitLine, ...] = ()
    marks: tuple[Mark, ...] = ()
    note: str = ""
    x_name: str = ""
    x_unit: str = ""
    y_name: str = ""
    fault: str = ""

    def shown(self, value: float) -> str:
        """A value in words. Settings are told as they are, what is worked out with three digits."""
        return number_text(value, 4 if self.kind == "window" else 3)

    def labels(self) -> list[str]:
        """The rows of a bars or window figure, in the order in which they first appear."""
        return list(dict.fromkeys(str(point.x) for series in self.series for point in series.points))

    def of_role(self, role: str) -> dict[str, float]:
        """The values of the series of a role, by label."""
        return {str(point.x): point.y for series in self.series if series.role == role for point in series.points}


def read_figures(tables: Sequence[Mapping[str, Any]]) -> tuple[Figure, ...]:
    """The figures that a judgement carries."""
    return tuple(_figure(table, number) for number, table in enumerate(tables[:MOST_FIGURES], 1))


def _figure(table: Any, number: int) -> Figure:
    # The id goes into the page's own ids, so it is ours and not the stranger's.
    own = f"figure-{number}"
    title = _text(table, "title") or f"Figure {number}"
    try:
        return _read(_table(table), own, title)
    except (KeyError, TypeError, ValueError) as error:
        return Figure(id=own, title=title, fault=f"Its data cannot be read: {visible(str(error))}.")


def _read(table: Mapping[str, Any], own: str, title: str) -> Figure:
    kind = table["kind"]
    if kind not in KINDS:
        raise ValueError(f"the kind is none of {', '.join(KINDS)}")
    series = tuple(_series(_table(item), kind) for item in _list(table, "series", MOST_SERIES))
    if not any(item.points for item in series):
        raise ValueError("there is no point")
    return Figure(
        id=own,
        title=title,
        kind=kind,
        unit=_text(table, "unit"),
        series=series,
        note=_text(table, "note"),
        limits=tuple(_limit(_table(item)) for item in _list(table, "limits", MOST_SERIES)),
        marks=tuple(_mark(_table(item)) for item in _list(table, "marks", MOST_POINTS)),
        x_name=_text(table, "x_name"),
        x_unit=_text(table, "x_unit"),
        y_name=_text(table, "y_name"),
    )


def _series(table: Mapping[str, Any], kind: str) -> Series:
    points = tuple(_point(item, kind) for item in _list(table, "points", MOST_POINTS))
    return Series(_text(table, "name"), _role(table), points)


def _point(item: Any, kind: str) -> FigurePoint:
    x, y = item
    if kind == "line":
        return FigurePoint(_number(x), _number(y))
    return FigurePoint(visible(str(x)), _number(y))


def _limit(table: Mapping[str, Any]) -> LimitLine:
    return LimitLine(_text(table, "name"), _number(table["value"]))


def _mark(table: Mapping[str, Any]) -> Mark:
    return Mark(_text(table, "name"), _role(table), _number(table["x"]), _number(table["y"]))


def _role(table: Mapping[str, Any]) -> str:
    role = table.get("role", table.get("name", ""))
    return role if role in ROLES else ""


def _table(value: Any) -> Mapping[str, Any]:
    if not isinstance(value, Mapping):
        raise TypeError("a table is missing")
    return value


def _number(value: Any) -> float:
    # No number that is not one (NaN) is at most anything.
    if isinstance(value, bool) or not isinstance(value, int | float) or not abs(value) <= LARGEST:
        raise ValueError(f"{value!r} is no finite number")
    return float(value)


def _text(table: Any, key: str) -> str:
    value = table.get(key, "") if isinstance(table, Mapping) else ""
    return visible(value) if isinstance(value, str) else ""


def _list(table: Mapping[str, Any], key: str, most: int) -> Sequence[Any]:
    items = table.get(key, ())
    if not isinstance(items, Sequence) or isinstance(items, str):
        raise TypeError(f"{key} is no list")
    if len(items) > most:
        raise ValueError(f"{key} has more than {most} entries")
    return items
