"""Figures as data: of the published form, with the numbers that the checks judge by."""

from __future__ import annotations

import json
import math

import pytest

from profilesmith.checks.beads import beads
from profilesmith.checks.figure_softness import softness_figure
from profilesmith.checks.figures import figures_of
from profilesmith.checks.print_time import time_bracket
from profilesmith.review.findings.in_words import figure_in_words
from profilesmith.review.render.figures.figure import read_figures
from tests.checks.samples import SOFT_SPOOL, case, profile

PART = {"part.thickness": "6 mm", "part.width": "20 mm", "part.mean_segment_length": "5 mm"}
NOW: dict[str, str | None] = {
    "infill.speed": "30 mm/s",
    "outer_wall.speed": "30 mm/s",
    "infill.density": "5 %",
    "nozzle.temperature": "230 °C",
}


def named() -> dict[str, dict[str, object]]:
    return {
        str(table["id"]): table
        for table in map(figure_in_words, figures_of(case(NOW, {**SOFT_SPOOL, **PART}, base={})))
    }


def test_all_of_them() -> None:
    assert list(named()) == ["flow", "stiffness", "time", "temperature-windows", "nozzle-windows"]


def test_they_can_be_read_and_stored() -> None:
    tables = list(named().values())
    assert json.loads(json.dumps(tables)) == tables
    figures = read_figures(tables)
    assert [figure.fault for figure in figures] == [""] * 5


def test_flow() -> None:
    series = named()["flow"]["series"]
    assert isinstance(series, list)
    assert [item["role"] for item in series] == ["before", "after"]
    for item, side in zip(series, (profile(), profile(NOW)), strict=True):
        assert item["points"] == [[bead.name, pytest.approx(bead.flow_mm3_s, rel=1e-3)] for bead in beads(side)]
    assert {"name": "spool limit", "value": 3.0} in named()["flow"]["limits"]  # type: ignore[operator]


def test_stiffness_is_solid_at_full_density_and_grows() -> None:
    for item in named()["stiffness"]["series"]:  # type: ignore[attr-defined]
        values = [y for _, y in item["points"]]
        assert values == sorted(values)
        assert values[-1] == 1
        assert item["points"][-1][0] == 100
    marks = named()["stiffness"]["marks"]
    assert [mark["x"] for mark in marks] == [15, 5]  # type: ignore[attr-defined]


def test_the_marks_lie_on_their_lines() -> None:
    lines = {item["name"]: dict(map(tuple, item["points"])) for item in named()["stiffness"]["series"]}  # type: ignore[attr-defined]
    for mark in named()["stiffness"]["marks"]:  # type: ignore[attr-defined]
        assert lines[mark["name"]][mark["x"]] == mark["y"]


def test_time_stays_inside_the_bracket() -> None:
    whole = time_bracket(case(NOW, base={}))
    assert whole is not None
    for item in named()["time"]["series"]:  # type: ignore[attr-defined]
        assert all(whole.low <= y <= whole.high for _, y in item["points"])
        assert all(math.isfinite(y) for _, y in item["points"])
    assert [mark["x"] for mark in named()["time"]["marks"]] == [5, 5]  # type: ignore[attr-defined]


def test_windows_have_both_points() -> None:
    points = {item["role"]: dict(item["points"]) for item in named()["temperature-windows"]["series"]}  # type: ignore[attr-defined]
    assert (points["before"]["nozzle"], points["after"]["nozzle"]) == (205, 230)
    assert (points["low"]["nozzle"], points["high"]["nozzle"]) == (220, 240)


def test_a_profile_alone_has_one_point_each_and_no_time() -> None:
    found = {str(table["id"]): table for table in map(figure_in_words, figures_of(case(told={**SOFT_SPOOL, **PART})))}
    assert "time" not in found
    assert [item["name"] for item in found["flow"]["series"]] == ["now"]


def test_what_is_not_known_has_no_figure() -> None:
    less: dict[str, str | None] = dict.fromkeys(("bead.width", "nozzle.diameter", "print.acceleration"))
    bare = case(less, base=less)
    assert figures_of(bare) == ()


@pytest.mark.parametrize(
    ("told", "names"),
    [
        ({"part.form": "tube", "part.orientation": "standing"}, {"2 walls", "3 walls"}),
        ({"part.form": "sheet", "part.orientation": "lying"}, {"2 closing layers", "4 closing layers"}),
    ],
)
def test_faces_are_counted_in_words(told: dict[str, str], names: set[str]) -> None:
    figure = softness_figure(case({"wall.count": "2"}, {"part.thickness": "1.2 mm", **told}, base={}))
    assert figure is not None
    assert {item["name"].partition(",")[0] for item in figure_in_words(figure)["series"]} == names
