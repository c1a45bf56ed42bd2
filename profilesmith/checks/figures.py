"""Figures of a change as plain data, so that any rendering can draw them; ``review/render/figures`` describes the form.

One table: id, kind (bars, line, window), unit, series [{name, role?, points}], limits [{name, value}], marks
[{name, role?, x, y}], of lines x_unit, and ``also``, what its note says. Names are tuples of codes, labels are codes;
title, note and names of the axes come from the id (``review/findings/in_words.py``). Values are rounded to what the
models carry.
"""

from collections.abc import Callable, Iterable
from typing import Any

from profilesmith.checks import sizes, temperatures
from profilesmith.checks.amounts import number
from profilesmith.checks.bar import WIDE, Bar, bar_of, pose_code, poses
from profilesmith.checks.case import Case
from profilesmith.checks.figure_softness import softness_figure
from profilesmith.checks.print_time import mean_factor, paces
from profilesmith.checks.temperatures import Subject, find_window
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.physics.moves import time_factor_bracket
from profilesmith.physics.section import bending_ratio, bending_ratios

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
        WindowTrack("layer", "layer.height", sizes.THIN * nozzle, sizes.THICK * nozzle),
        WindowTrack("first-layer", "first_layer.height", None, sizes.THICK * nozzle),
        WindowTrack("bead", "bead.width", sizes.NARROW * nozzle, sizes.WIDE * nozzle),
        WindowTrack("outer-wall-bead", "outer_wall.bead_width", sizes.NARROW * nozzle, sizes.WIDE * nozzle),
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


DIGITS = 4
# Enough for a smooth curve from the shortest moves to the longest.
LENGTHS_MM = (0.2, 0.3, 0.5, 0.7, 1.0, 1.5, 2.0, 3.0, 5.0, 7.0, 10.0, 15.0, 20.0, 30.0, 50.0, 70.0, 100.0)
DENSITIES = tuple(range(0, 101, 5))
# Features whose time curves are drawn; the others lie close to one of them.
CURVES = ("outer_wall", "infill")


def figures_of(case: Case) -> tuple[Figure, ...]:
    """The figures for which enough is known."""
    return tuple(figure for draw in DRAWN if (figure := draw(case)) is not None)


def _rounded(value: float) -> float:
    return float(f"{value:.{DIGITS}g}")


def flow_figure(case: Case) -> Figure | None:
    """Flow of each feature before and after, and what spool and hot end give."""
    series = [
        {
            "name": (role if case.derived else "now",),
            "role": role,
            "points": [[bead.code, _rounded(bead.flow_mm3_s)] for bead in case.laid.of(side)],
        }
        for role, side in case.sides
    ]
    if not any(item["points"] for item in series):
        return None
    known = (
        ("spool-limit", case.quantity("spool.maximum_flow")),
        ("hot-end-limit", case.quantity("machine.maximum_flow")),
        ("profile-limit", case.size("filament.maximum_flow")),
    )
    limits = [{"name": (name,), "value": _rounded(value)} for name, value in known if value is not None]
    return {"id": "flow", "kind": "bars", "unit": "mm³/s", "series": series, "limits": limits, "marks": []}


def stiffness_figure(case: Case) -> Figure | None:
    """Bending stiffness of a strip of the part over its infill, with both points; 1 is a solid strip."""
    thickness = case.quantity("part.thickness")
    if thickness is None:
        return None
    width, pose = case.quantity("part.width") or thickness * WIDE, poses(case)[0]
    series, marks = [], []
    for role, side in case.sides:
        bar = bar_of(side, thickness, pose)
        if isinstance(bar, str):
            return None
        name = role if case.derived else "now"
        series += _curves(bar, width, name)
        most = bending_ratio(bar.section(width), bar.core_or_nothing().high)
        marks.append({"name": (name, "at-most"), "role": role, "x": _rounded(bar.density * 100), "y": _rounded(most)})
    return {
        "id": "stiffness",
        "kind": "line",
        "unit": "",
        "series": series,
        "limits": [],
        "marks": marks,
        "x_unit": "%",
        "also": (pose_code(pose), "own-width" if case.quantity("part.width") else "wide"),
    }


def _curves(bar: Bar, width: float, name: str) -> list[Figure]:
    section, cores = bar.section(width), [bar.core_or_nothing(density / 100) for density in DENSITIES]
    ends = {"at-least": [core.low for core in cores], "at-most": [core.high for core in cores]}
    return [
        {
            "name": (name, end),
            "points": [
                [density, _rounded(ratio)]
                for density, ratio in zip(DENSITIES, bending_ratios(section, values), strict=True)
            ],
        }
        for end, values in ends.items()
    ]


def time_figure(case: Case) -> Figure | None:
    """How many times as long moves take, over their mean length; the limit is what the longest moves take."""
    series, limits = [], []
    for pace in paces(case):
        old, new = pace.accelerations
        if pace.old.feature not in CURVES or old is None or new is None:
            continue
        points = [
            [length, _rounded(factor)] for length in LENGTHS_MM if (factor := mean_factor(pace, length)) is not None
        ]
        series.append({"name": (pace.old.code,), "points": points})
        most = time_factor_bracket(pace.old.speed_mm_s, pace.new.speed_mm_s, old, new).high
        limits.append({"name": (pace.old.code, "at-most"), "value": _rounded(most)})
    if not series:
        return None
    return {
        "id": "time",
        "kind": "line",
        "unit": "times",
        "series": series,
        "limits": limits,
        "marks": _time_marks(case),
        "x_unit": "mm",
    }


def _time_marks(case: Case) -> list[Figure]:
    length = case.quantity("part.mean_segment_length")
    if length is None:
        return []
    return [
        {"name": (pace.old.code, "of-this-part"), "x": _rounded(length), "y": _rounded(factor)}
        for pace in paces(case)
        if pace.old.feature in CURVES and (factor := mean_factor(pace, length)) is not None
    ]


DRAWN: tuple[Callable[[Case], Figure | None], ...] = (
    flow_figure,
    stiffness_figure,
    softness_figure,
    time_figure,
    temperature_windows,
    length_windows,
)
