"""The window of each bounded value, from the rows of the ledger: drawn where its row opens, on an axis of its own.

The limits of machine and vocabulary have no rows, so they are not in the windows.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.quantity import show_quantity
from profilesmith.ledger import Row
from profilesmith.review.bounds import bounds_of
from profilesmith.review.render.figures.figure import LARGEST, Figure, FigurePoint, Series
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Setting, Value

MOST_TOOLS = 16
ALONE = "Allowed range"
_BOUNDED = ("changed", "added", "kept", "overruled", "refused")


class SettingWindow(NamedTuple):
    """label: the tool, or ALONE. low, high: None where the window is open."""

    label: str
    low: float | None
    high: float | None
    before: float | None
    after: float | None


def setting_windows(rows: Sequence[Row]) -> Mapping[str, Figure]:
    """Setting -> the figure of its window, with a track for each tool whose values differ from the others'."""
    vocabulary = load_vocabulary()
    figures = {}
    for name, own in _bounded(rows).items():
        setting = vocabulary.settings.get(name)
        windows = _windows(setting, own) if setting is not None and setting.is_number else []
        if setting is not None and windows:
            figures[name] = _figure(setting, windows)
    return figures


def torn_windows(rows: Sequence[Row]) -> Mapping[str, Figure]:
    """Of those the ones whose bounds leave no value, with the bounds of a conflict's own rules alone."""
    refused = [row._replace(derived=()) for row in rows if row.status == "refused"]
    return {name: figure for name, figure in setting_windows(refused).items() if _is_torn(figure)}


def _is_torn(figure: Figure) -> bool:
    lows, highs = figure.of_role("low"), figure.of_role("high")
    return any(label in highs and low > highs[label] for label, low in lows.items())


def _bounded(rows: Sequence[Row]) -> dict[str, list[Row]]:
    by_setting: dict[str, list[Row]] = {}
    for row in rows:
        if row.status in _BOUNDED and row.cause.kind == "rule":
            by_setting.setdefault(row.setting, []).append(row)
    return by_setting


def _windows(setting: Setting, rows: list[Row]) -> list[SettingWindow]:
    bounds = [bound for row in rows for bound in bounds_of(row.cause.asked)]
    low = max((float(bound[0]) for bound in bounds if bound[0] is not None), default=None)
    high = min((float(bound[1]) for bound in bounds if bound[1] is not None), default=None)
    if low is None and high is None:
        return []
    pairs = _pairs(_numbers(rows[0].base), _numbers(rows[0].derived))
    several = len(set(pairs)) > 1
    return [
        SettingWindow(f"Tool {tool}" if several else ALONE, low, high, before, after)
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


def _figure(setting: Setting, windows: list[SettingWindow]) -> Figure:
    roles = ("low", "high", "before", "after")
    series = tuple(
        Series(
            role,
            role,
            tuple(
                FigurePoint(window.label, value) for window in windows if (value := getattr(window, role)) is not None
            ),
        )
        for role in roles
    )
    unit = show_quantity(Fraction(0), setting.kind).removeprefix("0").strip()
    shown = tuple(item for item in series if item.points)
    return Figure(id=f"window-{setting.id}", title=setting.id, kind="window", unit=unit, series=shown)


def window_words(figure: Figure) -> str:
    """What the drawing says, for whoever does not see it: ``Allowed at most 40 mm/s; before 75, after 40``."""
    parts = []
    for label in figure.labels():
        low, high, before, after = (figure.of_role(role).get(label) for role in ("low", "high", "before", "after"))
        ends = [
            f"{word} {figure.shown(end)}" for word, end in (("at least", low), ("at most", high)) if end is not None
        ]
        values = [
            f"{word} {figure.shown(end)}" for word, end in (("before", before), ("after", after)) if end is not None
        ]
        name = "Allowed" if label == ALONE else f"{label}: allowed"
        parts.append(f"{name} {' and '.join(ends)} {figure.unit}".rstrip() + f"; {', '.join(values)}")
    return ". ".join(parts)
