"""Window figures: what the label, the machine and the nozzle allow, with the values before and after."""

from collections.abc import Iterable
from typing import Any

from profilesmith.checks import temperatures
from profilesmith.checks.case import Case
from profilesmith.checks.plain_numbers import number
from profilesmith.checks.sizes import NARROW, THICK, THIN, WIDE
from profilesmith.checks.temperatures import Subject, find_window
from profilesmith.foundation.named_tuple import NamedTuple

Figure = dict[str, Any]


class WindowTrack(NamedTuple):
    """One track. label: a code; low, high: None where it is open."""

    label: str
    setting: str
    low: float | None
    high: float | None


def temperature_windows(case: Case) -> Figure | None:
    """Nozzle and bed against the spool's label (or what is usual for its material) and the machine."""
    rows = [
        *_temperatures(case, temperatures.NOZZLE, "nozzle", "machine.maximum_nozzle_temperature"),
        *_temperatures(case, temperatures.BED, "bed", "machine.maximum_bed_temperature"),
    ]
    return _figure(case, "temperature-windows", "°C", rows)


def length_windows(case: Case) -> Figure | None:
    """Layers and beads against the nozzle."""
    nozzle = case.nozzle()
    if nozzle is None:
        return None
    rows = [
        WindowTrack("layer", "layer.height", THIN * nozzle, THICK * nozzle),
        WindowTrack("first-layer", "first_layer.height", None, THICK * nozzle),
        WindowTrack("bead", "bead.width", NARROW * nozzle, WIDE * nozzle),
        WindowTrack("outer-wall-bead", "outer_wall.bead_width", NARROW * nozzle, WIDE * nozzle),
    ]
    return _figure(case, "nozzle-windows", "mm", rows)


def _temperatures(case: Case, subject: Subject, name: str, fact: str) -> list[WindowTrack]:
    window, most = find_window(case, subject), case.quantity(fact)
    low = window.low if window else None
    high = min((end for end in (window.high if window else None, most) if end is not None), default=None)
    if low is not None and high is not None and low > high:
        low = None  # a spool that wants more than the machine gives: no band at all would hide the limit
    return [
        WindowTrack(name, subject.settings[0], low, high),
        WindowTrack(f"{name}-first-layer", subject.settings[1], low, high),
    ]


def _figure(case: Case, figure_id: str, unit: str, rows: list[WindowTrack]) -> Figure | None:
    drawn = [
        row
        for row in rows
        if (row.low is not None or row.high is not None) and number(case.now, row.setting) is not None
    ]
    if not drawn:
        return None
    series = [
        {
            "name": (role if case.derived else "now",),
            "role": role,
            "points": _points((row.label, number(side, row.setting)) for row in drawn),
        }
        for role, side in case.sides
    ]
    for end in ("low", "high"):
        points = _points((row.label, getattr(row, end)) for row in drawn)
        if points:
            series.append({"name": (end,), "role": end, "points": points})
    return {"id": figure_id, "kind": "window", "unit": unit, "series": series, "limits": [], "marks": []}


def _points(values: Iterable[tuple[str, float | None]]) -> list[list[Any]]:
    return [[label, float(f"{value:.4g}")] for label, value in values if value is not None]
