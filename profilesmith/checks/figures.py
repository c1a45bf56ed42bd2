"""Figures of a change as plain data, so that any rendering can draw them; ``review/render/figures`` describes the form.

One table: id, title, kind (bars, line, window), unit, series [{name, role?, points}], limits [{name, value}], marks
[{name, role?, x, y}], note; of lines also x_name, x_unit, y_name. Values are rounded to what the models carry.
"""

from collections.abc import Callable
from typing import Any

from profilesmith.checks.bar import WIDE, Bar, bar_of, poses
from profilesmith.checks.beads import FEATURES, beads
from profilesmith.checks.case import Case
from profilesmith.checks.figure_softness import softness_figure
from profilesmith.checks.figure_windows import length_windows, temperature_windows
from profilesmith.checks.print_time import mean_factor, paces
from profilesmith.physics.section import bending_ratio
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
            "name": role if case.derived else "now",
            "role": role,
            "points": [[bead.name, _rounded(bead.flow_mm3_s)] for bead in beads(side)],
        }
        for role, side in case.sides
    ]
    if not any(item["points"] for item in series):
        return None
    known = (
        ("spool limit", case.quantity("spool.maximum_flow")),
        ("hot end limit", case.quantity("machine.maximum_flow")),
        ("profile limit", case.size("filament.maximum_flow")),
    )
    limits = [{"name": name, "value": _rounded(value)} for name, value in known if value is not None]
    return {
        "id": "flow",
        "title": "Flow of each feature",
        "kind": "bars",
        "unit": "mm³/s",
        "series": series,
        "limits": limits,
        "marks": [],
        "note": "Area of the bead times its speed, as set; what is switched off is left out.",
    }


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
        marks.append({"name": f"{name}, at most", "role": role, "x": _rounded(bar.density * 100), "y": _rounded(most)})
    strip = "of the part's width" if case.quantity("part.width") else "so wide that side walls hardly count"
    return {
        "id": "stiffness",
        "title": "Bending stiffness over infill",
        "kind": "line",
        "unit": "",
        "series": series,
        "limits": [],
        "marks": marks,
        "note": (
            f"A strip that {'stands' if pose.standing else 'lies flat'}, {strip}, against a solid one "
            "(1). The truth lies between the two lines of a side."
        ),
        "x_name": "infill",
        "x_unit": "%",
        "y_name": "stiffness of a solid strip",
    }


def _curves(bar: Bar, width: float, name: str) -> list[Figure]:
    section, cores = bar.section(width), [bar.core_or_nothing(density / 100) for density in DENSITIES]
    ends = {"at least": [core.low for core in cores], "at most": [core.high for core in cores]}
    return [
        {
            "name": f"{name}, {words}",
            "points": [
                [density, _rounded(bending_ratio(section, end))] for density, end in zip(DENSITIES, values, strict=True)
            ],
        }
        for words, values in ends.items()
    ]


def time_figure(case: Case) -> Figure | None:
    """How many times as long moves take, over their mean length; the limit is what the longest moves take."""
    named = dict(FEATURES)
    series, limits = [], []
    for pace in paces(case):
        old, new = pace.accelerations
        if pace.old.feature not in CURVES or old is None or new is None:
            continue
        points = [
            [length, _rounded(factor)] for length in LENGTHS_MM if (factor := mean_factor(pace, length)) is not None
        ]
        series.append({"name": named[pace.old.feature], "points": points})
        most = time_factor_bracket(pace.old.speed_mm_s, pace.new.speed_mm_s, old, new).high
        limits.append({"name": f"{named[pace.old.feature]}, at most", "value": _rounded(most)})
    if not series:
        return None
    return {
        "id": "time",
        "title": "Time over the length of moves",
        "kind": "line",
        "unit": "times",
        "series": series,
        "limits": limits,
        "marks": _time_marks(case),
        "note": "Moves from rest to rest whose lengths scatter around a mean; an estimate, not the minutes of a print.",
        "x_name": "mean length of a move",
        "x_unit": "mm",
        "y_name": "time, new over old",
    }


def _time_marks(case: Case) -> list[Figure]:
    length = case.quantity("part.mean_segment_length")
    if length is None:
        return []
    named = dict(FEATURES)
    return [
        {"name": f"{named[pace.old.feature]} of this part", "x": _rounded(length), "y": _rounded(factor)}
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
