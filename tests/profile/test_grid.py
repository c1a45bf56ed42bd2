"""Numbers that a text can hold. Outside check: brute force over all writable numbers nearby."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest

from profilesmith.profile.profile import Entry, Grid, Origin, Profile, profile_of

STEPS = [Fraction(1), Fraction(1, 10), Fraction(5, 9), Fraction(100, 255), Fraction(1, 60)]


@pytest.mark.parametrize("step", STEPS)
@pytest.mark.parametrize("zero", [Fraction(0), Fraction("-17.5"), Fraction(90)])
def test_rounding_goes_to_the_inside(step: Fraction, zero: Fraction) -> None:
    """Of all writable numbers inside the bounds the nearest one, whatever the value and the bounds."""
    grid = Grid(step, zero)
    values = [Fraction(number, 7) for number in range(-20, 21, 6)]
    for value, low, high in product(values, [None, *values], [None, *values]):
        if low is not None and high is not None and high - low < 2 * step:
            continue
        clamped = value if high is None else min(value, high)
        clamped = clamped if low is None else max(clamped, low)
        found = grid.inside(clamped, low, high)
        writable = [
            zero + step * count for count in range(-3 + int((clamped - zero) / step), 4 + int((clamped - zero) / step))
        ]
        inside = [number for number in writable if (low is None or number >= low) and (high is None or number <= high)]
        assert found in inside
        assert abs(found - clamped) == min(abs(number - clamped) for number in inside)


def test_bounds_too_narrow_for_the_grid_get_more_decimals() -> None:
    grid = Grid(Fraction(1, 10))
    assert grid.inside(Fraction("0.333"), Fraction("0.331"), Fraction("0.339")) == Fraction("0.333")
    assert grid.inside(Fraction(1, 3), Fraction(1, 3), Fraction("0.334")) == Fraction("0.334")


def test_a_step_of_nothing_holds_any_number() -> None:
    assert Grid().inside(Fraction(1, 3), None, None) == Fraction(1, 3)


def test_a_falling_grid_rounds_the_same_way() -> None:
    """An angle from the horizontal counts downward."""
    assert Grid(Fraction(-1), Fraction(90)).inside(Fraction("49.6"), None, Fraction("49.6")) == 49


def test_values_for_tools() -> None:
    origin = Origin("", 0, "", "")
    entry = Entry(setting="nozzle.temperature", values=(Fraction(210), Fraction(220)), origin=origin)
    profile = Profile(entries={entry.setting: entry}, addable={}, absent={})
    assert [profile.number(entry.setting, tool) for tool in range(3)] == [210, 220, 210]
    assert profile.number("bed.temperature") is None
    assert profile.values("bed.temperature") == ()
    assert entry.value == 210


def test_a_switch_is_no_number() -> None:
    assert profile_of({"raft.on": (True,)}).number("raft.on") is None


def test_a_step_is_made_six_decimals_finer_and_no_more() -> None:
    """More would write numbers that no person typed and no printer tells apart."""
    third = Fraction(1, 3)
    for places, there in ((7, True), (8, False)):
        width = Fraction(1, 10**places)
        low = third // width * width
        inside = Grid(Fraction(1, 10)).inside(third, low + width / 10, low + width + width / 10)
        assert (inside == low + width) is there
        assert inside is not None or not there
    assert Grid(Fraction(1), whole=True).inside(third, third, Fraction(1, 2)) is None
