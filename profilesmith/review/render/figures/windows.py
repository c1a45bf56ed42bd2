"""The window of each bounded value, from the rows of the ledger.

The limits of machine and vocabulary have no rows, so they are not in the windows.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from profilesmith.foundation.quantity import show_quantity
from profilesmith.ledger import Row
from profilesmith.review.bounds import bounds_of
from profilesmith.review.render.figures.figure import LARGEST, Figure, Point, Series
from profilesmith.review.render.names import trade_name
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Setting, Value, Vocabulary

MOST_TOOLS = 16
_BOUNDED = ("changed", "added", "kept", "overruled", "refused")


class Window(NamedTuple):
    """label: the setting in trade words. low, high: None where the window is open."""

    label: str
    low: float | None
    high: float | None
    before: float | None
    after: float | None


def window_figures(rows: Sequence[Row]) -> tuple[Figure, ...]:
    """One figure for each part of the print and unit that has a bounded value, in the order of a review."""
    by_setting: dict[str, list[Row]] = {}
    for row in rows:
        if row.status in _BOUNDED and row.cause.kind == "rule":
            by_setting.setdefault(row.setting, []).append(row)
    vocabulary = load_vocabulary()
    gathered: dict[tuple[int, str, str], list[Window]] = {}
    for name, setting in vocabulary.settings.items():
        if setting.is_number and name in by_setting:
            place = list(vocabulary.areas).index(setting.area)
            gathered.setdefault((place, _title(setting, vocabulary), setting.kind), []).extend(
                _windows(setting, by_setting[name])
            )
    shown = [
        (title, kind, gathered[place, title, kind]) for place, title, kind in sorted(gathered, key=lambda key: key[0])
    ]
    return tuple(_figure(number, *part) for number, part in enumerate(shown, 1) if part[2])


def _title(setting: Setting, vocabulary: Vocabulary) -> str:
    """The part of the print. Nozzle and bed share no scale, so temperatures go by their group."""
    groups = (group.name for group in vocabulary.groups.values() if setting.id in group.members)
    name = next(groups, "") if setting.kind == "temperature" else ""
    return name[:1].upper() + name[1:] or vocabulary.areas[setting.area]


def _windows(setting: Setting, rows: list[Row]) -> list[Window]:
    """One window for each tool whose values differ from the others'."""
    bounds = [bound for row in rows for bound in bounds_of(row.cause.asked)]
    low = max((float(bound[0]) for bound in bounds if bound[0] is not None), default=None)
    high = min((float(bound[1]) for bound in bounds if bound[1] is not None), default=None)
    if low is None and high is None:
        return []
    pairs = _pairs(_numbers(rows[0].base), _numbers(rows[0].derived))
    several = len(set(pairs)) > 1
    return [
        Window(trade_name(setting.id) + (f", tool {tool}" if several else ""), low, high, before, after)
        for tool, (before, after) in enumerate(pairs if several else pairs[:1], 1)
        if before is not None or after is not None
    ]


def _pairs(before: list[float | None], after: list[float | None]) -> list[tuple[float | None, float | None]]:
    length = max(len(before), len(after))
    return [
        (before[number] if number < len(before) else None, after[number] if number < len(after) else None)
        for number in range(length)
    ]


def _numbers(values: tuple[Value, ...]) -> list[float | None]:
    return [
        float(value) if isinstance(value, Fraction) and abs(value) <= LARGEST else None for value in values[:MOST_TOOLS]
    ]


def _figure(number: int, title: str, kind: str, windows: list[Window]) -> Figure:
    roles = ("low", "high", "before", "after")
    series = tuple(
        Series(
            role,
            role,
            tuple(Point(window.label, value) for window in windows if (value := getattr(window, role)) is not None),
        )
        for role in roles
    )
    unit = show_quantity(Fraction(0), kind).removeprefix("0").strip()
    shown = tuple(item for item in series if item.points)
    return Figure(id=f"window-{number}", title=title, kind="window", unit=unit, series=shown)
