"""Figures of a change as plain data, so that any rendering can draw them; ``review/render/figures`` describes the form.

One table: id, kind (bars, line, window), unit, series [{name, role?, points}], limits [{name, value}], marks
[{name, role?, x, y}], of lines x_unit, and ``also``, what its note says. Names are tuples of codes, labels are codes;
title, note and names of the axes come from the id (``review/findings/figure_words.py``). Values are rounded to what the
models carry.
"""

from collections.abc import Callable
from typing import Any

from profilesmith.checks.bar import WIDE, Bar, bar_of, pose_code, poses
from profilesmith.checks.case import Case
from profilesmith.checks.figure_softness import softness_figure
from profilesmith.checks.figure_windows import length_windows, temperature_windows
from profilesmith.checks.print_time import mean_factor, paces
from profilesmith.physics.section import bending_ratio, bending_ratios
from profilesmith.physics.time_factor import time_factor_bracket

Figure = dict[str, Any]
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
