"""Stiffness of a strip of the part.

Outside check: a bar of 20 x 6 mm whose walls (0.9 mm) and skins (0.8 mm) stay while the filling goes from 30 % to 5 %
keeps 88.0 to 95.4 % of its bending stiffness (finite elements on the transformed section, laws from Voigt to foam), and
its mass falls to .366033 / .532867.
"""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from profilesmith.checks.bar import Bar, bar_of, widths
from profilesmith.checks.stiffness import bending_change, check
from profilesmith.physics.answer import NotValid
from tests.checks.samples import case, only, profile

FLAT = {"part.form": "sheet", "part.orientation": "lying"}
PART = {"part.thickness": "6 mm", "part.width": "20 mm", **FLAT}


def bar(density: float, thickness: float = 6.0, pattern: str = "gyroid", bead: float = 0.01) -> Bar:
    """A bead so thin that the filling has many cells."""
    return Bar(thickness, 0.9, 0.8, 0.8, density, pattern, bead)


def test_the_published_bar() -> None:
    change = bending_change(bar(0.30), bar(0.05), 20)
    assert change is not None
    assert (change.low, change.high) == pytest.approx((0.880180, 0.953370), abs=2e-4)


def test_mass_of_the_published_bar() -> None:
    found = check(
        case({"infill.density": "5 %", "wall.count": "2"}, PART, base={"infill.density": "30 %", "wall.count": "2"})
    )
    # The walls of this profile are 0.857 mm, the skins 0.8 and 0.85 mm: near the published 69 %.
    assert only(found, "mass").after in ("68 %", "69 %", "70 %")


def test_too_few_cells_give_a_range_that_holds_no_filling_at_all() -> None:
    few = bar(0.05, bead=0.45)
    assert isinstance(few.core(), NotValid)
    assert (few.core_or_nothing().low, few.core_or_nothing().high) == (0, 0.05)


def test_closing_layers_that_fill_the_part_are_named() -> None:
    found = only(check(case({"infill.density": "5 %"}, {"part.thickness": "1.8 mm", **FLAT}, base={})), "stiffness")
    assert found.verdict == "note"
    assert "hardly counts" in found.text
    assert "bends as before" in found.text
    assert found.ask  # the width narrows it


def test_more_walls_are_stiffer() -> None:
    found = only(
        check(case({"top.layers": "8", "bottom.layers": "8"}, PART, base={"top.layers": "2", "bottom.layers": "2"})),
        "stiffness",
    )
    assert "times as stiff" in found.text


def test_nothing_changed_passes() -> None:
    found = only(check(case({"outer_wall.speed": "30 mm/s"}, PART, base={})), "stiffness")
    assert (found.verdict, found.ask) == ("passed", "")


@pytest.mark.parametrize("density", ["5 %", "15 %", "100 %"])
@pytest.mark.parametrize("pattern", ["gyroid", "lines", "concentric"])
def test_what_is_unchanged_is_a_hundred_per_cent_exactly(density: str, pattern: str) -> None:
    """The two brackets of one and the same bar were once divided: 85 to 117 %."""
    same: dict[str, str | None] = {"infill.density": density, "infill.pattern": pattern}
    found = only(
        check(case({**same, "outer_wall.speed": "30 mm/s"}, {"part.thickness": "6 mm"}, base=same)), "stiffness"
    )
    assert (found.verdict, found.after) == ("passed", "100 %")


def test_the_same_filling_cancels_where_only_closing_layers_change() -> None:
    """A core of any modulus from nothing to solid: at r = 0.15 and r = 0 the two ends of this strip."""
    from profilesmith.physics.section import bending_ratio

    old, new = bar(0.15, bead=0.45), bar(0.15, bead=0.45)._replace(top=0.4, bottom=0.4)
    change = bending_change(old, new, 20)
    assert change is not None
    ends = [bending_ratio(new.section(20), r) / bending_ratio(old.section(20), r) for r in (0.0, 0.15)]
    assert (change.low, change.high) == pytest.approx((min(ends), max(ends)))


STANDING = {"part.thickness": "6 mm", "part.form": "tube", "part.orientation": "standing"}


def test_a_sleeve_that_stands_bends_in_its_walls() -> None:
    """Closing layers do nothing for it, walls do: two skins of w apart, Allen's sandwich."""
    layers: dict[str, str | None] = {"top.layers": "9", "bottom.layers": "9"}
    assert only(check(case(layers, STANDING, base={})), "stiffness").after == "100 %"
    walls = only(check(case({"wall.count": "2"}, STANDING, base={"wall.count": "1"})), "stiffness")
    assert "that stands upright" in walls.text
    assert "times as stiff" in walls.text


def test_what_nobody_said_of_the_pose_is_asked_and_both_are_held() -> None:
    change: dict[str, str | None] = {"wall.count": "2"}
    unknown, lying, standing = (
        only(check(case(change, {"part.thickness": "6 mm", **told}, base={})), "stiffness")
        for told in ({}, FLAT, {"part.orientation": "standing", "part.form": "sheet"})
    )
    assert "standing" in unknown.ask
    assert "(lying or standing)" in unknown.text
    assert len({unknown.after, lying.after, standing.after}) == 3


def test_the_plastic_is_told_apart() -> None:
    found = only(check(case(told={**PART, "spool.material": "TPU 95A"}, base={})), "stiffness")
    assert "6 to 200 times softer than rigid PLA" in found.text
    assert "rigid PLA" not in only(check(case(told=PART, base={})), "stiffness").text


@pytest.mark.parametrize(("now", "told"), [({}, {}), ({"wall.count": None}, PART), ({"infill.density": None}, PART)])
def test_not_judged(now: dict[str, str | None], told: dict[str, str]) -> None:
    assert only(check(case(now, told, base={})), "stiffness").verdict == "not judged"


def test_a_strip_that_may_carry_nothing_is_not_judged() -> None:
    bare: dict[str, str | None] = {
        "wall.count": "0",
        "top.layers": "0",
        "bottom.layers": "0",
        "infill.pattern": "lines",
    }
    found = check(case({**bare, "infill.density": "30 %"}, PART, base=bare))
    assert only(found, "stiffness").verdict == "not judged"
    assert only(found, "mass").after == "200 %"


def test_an_old_part_without_any_plastic_is_compared_with_nothing() -> None:
    """No walls, no closing layers, no filling: there is neither stiffness nor plastic to divide by."""
    bare = {"wall.count": "0", "top.layers": "0", "bottom.layers": "0", "infill.density": "0 %"}
    assert [(item.check, item.verdict) for item in check(case({}, PART, base=bare))] == [("stiffness", "not judged")]


def test_alone_nothing_is_compared() -> None:
    assert check(case(told=PART)) == ()


@settings(deadline=None)
@given(st.sampled_from(["gyroid", "grid", "lines", "hexagons", "cubic", ""]), st.floats(1, 40))
def test_full_density_is_solid(pattern: str, thickness: float) -> None:
    solid = Bar(thickness, 0.9, 0.4, 0.4, 1.0, pattern, 0.45)
    change = bending_change(solid, Bar(thickness, thickness, thickness, thickness, 0.0, pattern, 0.45), 20)
    assert change is not None
    assert change.low == pytest.approx(1) == pytest.approx(change.high)


@settings(deadline=None)
@given(st.floats(0.02, 1), st.floats(0.02, 1), st.floats(2, 40))
def test_more_filling_is_never_softer(one: float, other: float, thickness: float) -> None:
    low, high = sorted((one, other))
    change = bending_change(bar(low, thickness), bar(high, thickness), 20)
    assert change is not None
    assert change.high >= 1 - 1e-12


@settings(deadline=None)
@given(st.floats(6, 3000), st.floats(0.05, 0.9), st.floats(0.05, 0.9), st.integers(1, 6), st.integers(1, 6))
def test_the_range_for_any_width_holds_every_width(width: float, old: float, new: float, few: int, many: int) -> None:
    """Widths between the sampled ones give nothing outside of what those give, but for half a percent."""
    bars = Bar(6, few * 0.4, 0.8, 0.8, old, "lines", 0.45), Bar(6, many * 0.4, 0.6, 1.0, new, "grid", 0.45)
    sampled = [bending_change(*bars, at) for at in widths(6, (bar.wall for bar in bars), None)]
    here = bending_change(*bars, width)
    assert here is not None
    ends = [change for change in sampled if change is not None]
    assert len(ends) == len(sampled)
    assert min(change.low for change in ends) <= here.low * (1 + 5e-3)
    assert here.high <= max(change.high for change in ends) * (1 + 5e-3)


def test_what_a_bar_needs_is_named() -> None:
    assert bar_of(profile({"top.layers": None}), 6) == "top.layers"
    assert isinstance(bar_of(profile(), 6), Bar)
