"""Figures of the page: what is drawn stands where its number says, and every number stands in a table beside it.

Outside checks: the drawings are read back by html5lib, an implementation of the WHATWG standard; ticks are held against
the rule of Heckbert 1990, "Nice numbers for graph labels" (Graphics Gems).
"""

from __future__ import annotations

from typing import Any
from xml.etree.ElementTree import Element

import html5lib
import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilesmith.foundation.problem import Problem
from profilesmith.ledger import Asked, Cause, Row
from profilesmith.review.render import render
from profilesmith.review.render.figures.axis import axis, number_text, reaches_zero
from profilesmith.review.render.figures.figure import read_figures
from profilesmith.review.render.figures.windows import setting_windows
from profilesmith.review.render.page import pictures
from profilesmith.review.review import AreaChanges, Review, ValueChange
from tests.rows import row

SVG = "{http://www.w3.org/2000/svg}"


def page(**data: Any) -> Element:
    """The page of a review that holds nothing but these data."""
    lists = (
        "groups",
        "by_hand",
        "questions",
        "kept",
        "idle",
        "overruled",
        "conflicts",
        "literals",
        "unmapped",
        "unread",
        "notes",
        "assumed",
        "cautions",
    )
    whole: dict[str, Any] = {**dict.fromkeys(lists, ()), "kind": "comparison", **data}
    html = render(Review(title="t", subject="s", recipes=("r",), **whole), "page")
    found: Element = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(html)
    return found


def plain(element: Element) -> str:
    return " ".join("".join(element.itertext()).split())


def charts(found: Element) -> list[Element]:
    return [item for item in found.iter(f"{SVG}svg") if "chart" in (item.get("class") or "")]


def cells(found: Element) -> list[list[str]]:
    return [[plain(cell) for cell in line] for table in found.iter("table") for line in table.iter("tr")]


def windows(*rows: Row) -> Element:
    """A page with a row for each setting; its window is drawn in it."""
    changes = (ValueChange(name, "", "changed", "a", "b") for name in dict.fromkeys(item.setting for item in rows))
    return page(rows=rows, groups=(AreaChanges("All", tuple(changes)),))


def told(found: Element) -> dict[str, str]:
    """Row's setting -> what its window says to whoever does not see it."""
    rows = (item for item in found.iter("li") if item.get("id"))
    return {
        item.attrib["id"].removeprefix("change-"): chart.attrib["aria-label"] for item in rows for chart in charts(item)
    }


def percent(item: Element, name: str = "x") -> float:
    return float(item.attrib[name].removesuffix("%"))


@pytest.mark.parametrize(
    "table",
    [
        "no table",
        {"kind": "bars"},
        {"kind": "bars", "series": [{"points": [["a", float("nan")]]}]},
        {"kind": "bars", "series": [{"points": [["a", "1"]]}]},
        {"kind": "line", "series": [{"points": [["a", 1]]}]},
        {"kind": "line", "series": [{"points": [[1, 2, 3]]}]},
        {"kind": "bars", "series": [{"points": [["a", True]]}]},
        {"kind": "bars", "series": "x"},
        {"kind": "bars", "series": [{"points": [["a", 1]] * 401}]},
        {"kind": "window", "series": [{"points": [["a", 10**400]]}]},
    ],
)
def test_figures_of_another_shape_are_named_and_not_drawn(table: Any) -> None:
    assert "This figure cannot be drawn." in plain(page(figures=[table]))


def test_a_window_is_what_all_rules_together_allow() -> None:
    found = told(
        windows(
            row("outer_wall.speed", {"cap": "40 mm/s"}, 75, 40),
            row("outer_wall.speed", {"cap": "53.04 mm/s"}, 75, 40, "overruled"),
            row("nozzle.temperature", {"aim": "215 °C", "window": "210 °C to 220 °C"}, 205, 215),
            row("support.density", {"raise_to": "30 %"}, 12, 30),
            row("bed.temperature", {"window": "40 °C to 65 °C"}, 65, 65, "kept"),
            row("retraction.distance", {"cap": "2 mm"}, 5, 5, "unanswered"),
            row("raft.on", {"set": "on"}, False, True),
        )
    )
    assert found == {
        "outer_wall.speed": "Allowed at most 40 mm/s; before 75, after 40",
        "nozzle.temperature": "Allowed at least 210 and at most 220 °C; before 205, after 215",
        "support.density": "Allowed at least 30 %; before 12, after 30",
        "bed.temperature": "Allowed at least 40 and at most 65 °C; before 65, after 65",
    }


def test_tools_whose_values_differ_have_a_track_each() -> None:
    found = told(windows(row("nozzle.temperature", {"window": "210 °C to 220 °C"}, [205, 230], [210, 220])))
    assert found["nozzle.temperature"] == (
        "Tool 1: allowed at least 210 and at most 220 °C; before 205, after 210. "
        "Tool 2: allowed at least 210 and at most 220 °C; before 230, after 220"
    )


def test_where_no_value_fits_there_are_two_stops_and_no_band() -> None:
    rows = (
        row("nozzle.temperature", {"window": "210 °C to 220 °C"}, 205, 205, "refused"),
        row("nozzle.temperature", {"raise_to": "230 °C"}, 205, 205, "refused"),
    )
    problem = Problem("conflict", "Both cannot hold.")
    found = page(kind="derivation", rows=rows, conflicts=(problem,))
    (chart,) = charts(next(item for item in found.iter("section") if item.get("id") == "look-first"))
    high, low = (percent(item, "x1") for item in chart.iter(f"{SVG}line") if item.get("class") == "f-stop")
    assert high < low
    assert not list(chart.iter(f"{SVG}rect"))
    assert "no value fits" in plain(chart)
    assert "every value is already right" not in plain(found)


LINE = {"title": "Stiffness", "kind": "line"}
MARKS = [{"name": role, "role": role, "x": 50, "y": 1} for role in ("before", "after")]


def lines(**ends: tuple[float, float]) -> list[dict[str, Any]]:
    return [{"name": name, "points": [[0, low], [100, high]]} for name, (low, high) in ends.items()]


@pytest.mark.parametrize(
    ("figure", "drawn"),
    [
        ({**LINE, "series": lines(a=(0.999, 1.0))}, False),  # a stiffness of 0.999 to 1
        ({**LINE, "series": lines(a=(0.5, 1.0))}, True),
        ({**LINE, "series": lines(before=(0.5, 1.0), after=(0.5, 1.001)), "marks": MARKS}, False),
        ({**LINE, "series": lines(before=(0.5, 1.0), after=(0.5, 0.9)), "marks": MARKS}, True),
        ({"kind": "bars", "series": [{"name": side, "points": [["a", 3]]} for side in ("before", "after")]}, False),
        (
            {
                "kind": "bars",
                "series": [{"name": side, "points": [["a", 3]]} for side in ("before", "after")],
                "limits": [{"name": "spool", "value": 2}],
            },
            True,
        ),
        ({"kind": "bars", "series": [{"name": "before", "points": [["a", 3]]}]}, True),
        ({"kind": "window", "series": [{"name": side, "points": [["a", 3]]} for side in ("before", "after")]}, False),
        ({"kind": "window", "series": [{"name": side, "points": [["a", 3]]} for side in ("low", "high")]}, True),
    ],
)
def test_only_what_tells_something_is_drawn(figure: dict[str, Any], drawn: bool) -> None:
    assert bool(charts(page(figures=[figure]))) is drawn


def test_where_nothing_changed_nothing_is_drawn() -> None:
    figure = {**LINE, "series": lines(a=(0.5, 1.0))}
    assert charts(page(figures=[figure], kind="derivation")) == []
    change = ValueChange("wall.count", "", "changed", "3", "2")
    assert len(charts(page(figures=[figure], kind="derivation", groups=(AreaChanges("All", (change,)),)))) == 1


def test_an_axis_begins_near_its_numbers_where_they_lie_far_from_zero() -> None:
    assert reaches_zero([0.4, 1.0])
    assert not reaches_zero([0.9, 1.0])


def test_points_and_stops_stand_in_the_order_of_their_values() -> None:
    chart = charts(windows(row("nozzle.temperature", {"window": "210 °C to 220 °C"}, 205, 215)))[0]
    before, after = (percent(item) for item in chart.iter(f"{SVG}svg") if "x" in item.attrib)
    low, high = (percent(item, "x1") for item in chart.iter(f"{SVG}line") if item.get("class") == "f-stop")
    band = next(item for item in chart.iter(f"{SVG}rect"))
    assert 0 <= before < low < after < high <= 100
    assert after - low == pytest.approx(high - after, abs=0.05)  # 215 lies half way
    assert (percent(band), percent(band) + percent(band, "width")) == pytest.approx((low, high), abs=0.05)


def test_an_open_window_runs_to_the_edge() -> None:
    chart = charts(windows(row("support.density", {"raise_to": "30 %"}, 12, 30)))[0]
    band = next(item for item in chart.iter(f"{SVG}rect"))
    assert percent(band) + percent(band, "width") == pytest.approx(100, abs=0.05)


def test_bars_are_as_long_as_their_values_and_start_at_zero() -> None:
    series = [{"name": "before", "points": [["a", 6], ["b", 3]]}, {"name": "after", "points": [["a", 1.5]]}]
    found = page(figures=[{"kind": "bars", "title": "t", "series": series, "limits": [{"name": "l", "value": 4}]}])
    bars = list(charts(found)[0].iter(f"{SVG}rect"))
    widths = [percent(item, "width") for item in bars]
    assert len({percent(item) for item in bars}) == 1
    assert [width / widths[0] for width in widths] == pytest.approx([1, 0.25, 0.5], abs=0.01)
    limit = next(item for item in charts(found)[0].iter(f"{SVG}line") if item.get("class") == "f-limit")
    assert (percent(limit, "x1") - percent(bars[0])) / widths[0] == pytest.approx(4 / 6, abs=0.01)


def test_a_line_goes_through_its_points_and_the_table_says_what_it_leaves_out() -> None:
    points = [[x, 2 * x] for x in range(0, 101, 2)]
    figure = {
        "kind": "line",
        "title": "t",
        "series": [{"name": "s", "points": points}],
        "marks": [{"name": "before", "x": 50, "y": 100}],
    }
    found = page(figures=[figure])
    line = next(charts(found)[0].iter(f"{SVG}polyline"))
    places = [tuple(map(float, pair.split(","))) for pair in line.attrib["points"].split()]
    assert len(places) == 51
    slopes = [(y - places[0][1]) / (x - places[0][0]) for x, y in places[1:]]
    assert slopes == pytest.approx([slopes[0]] * 50, rel=1e-2)  # a straight line stays one
    assert "40 more points lie on the lines." in plain(found)
    assert ["100", "200"] in cells(found)


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=5),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(
            st.sampled_from(["kind", "series", "points", "limits", "marks", "x", "y", "value", "role"]),
            inner,
            max_size=4,
        )
    ),
    max_leaves=12,
)


@given(
    st.lists(JSON)
    | st.lists(st.fixed_dictionaries({"kind": st.sampled_from(["bars", "line", "window"]), "series": JSON}), max_size=2)
)
def test_no_data_of_a_stranger_stops_the_page(data: Any) -> None:
    for picture in pictures(read_figures(data)):
        assert picture.figure.fault or picture.drawing


ASKED = st.sampled_from(["cap", "set", "window", "aim", "hold", "no such thing"])
VALUES = st.lists(st.booleans() | st.text(max_size=3) | st.fractions(-(10**30), 10**30), max_size=3).map(tuple)


@given(
    st.lists(
        st.builds(
            lambda setting, operation, values, base, derived: Row(
                setting, "kept", Cause("rule", "x", asked=(Asked(operation, values),)), base, derived
            ),
            st.sampled_from(["nozzle.temperature", "x", "wall.count"]),
            ASKED,
            VALUES,
            VALUES,
            VALUES,
        ),
        max_size=4,
    )
)
def test_no_row_of_a_stranger_stops_the_page(rows: list[Row]) -> None:
    for picture in pictures(tuple(setting_windows(rows).values())):
        assert picture.drawing


NUMBERS = st.lists(st.floats(-1e6, 1e6), min_size=1, max_size=6)


@given(NUMBERS, st.booleans(), st.booleans())
def test_an_axis_holds_its_values_between_few_round_ticks(values: list[float], from_zero: bool, room: bool) -> None:
    scale = axis(values, from_zero, room)
    slack = scale.step * 1e-6
    assert scale.low - slack <= min(values)
    assert max(values) <= scale.high + slack
    assert 2 <= len(scale.ticks()) <= 10
    assert f"{scale.step:e}"[0] in "125"  # Heckbert 1990: steps of 1, 2 or 5 times a power of ten
    assert all(0 <= scale.percent(value) <= 100 for value in values)
    if from_zero:
        assert scale.low <= 0 <= scale.high


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (0, "0"),
        (40, "40"),
        (53.0392, "53.04"),
        (0.15, "0.15"),
        (1500, "1500"),
        (12345.6, "12346"),
        (-2.5, "−2.5"),
        (0.00012345, "0.0001234"),
    ],
)
def test_numbers_are_short_and_never_in_powers_of_ten(value: float, text: str) -> None:
    assert number_text(value) == text
