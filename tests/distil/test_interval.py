"""Regions and round numbers, against counting by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilesmith.distil.interval import Interval, densest, roundest

F = Fraction


@pytest.mark.parametrize(
    ("low", "high", "near", "expected"),
    [
        ("39.95", "40.05", "39.97", "40"),
        ("24.8", "25.4", "25", "25"),
        ("12.3", "12.7", "12.5", "12.5"),
        ("66.61", "66.69", "66.65", "66.65"),
        ("-10.2", "-9.9", "-10", "-10"),
        ("0", "0", "0", "0"),
        ("68.75", "71.25", "70", "70"),
        ("0.195", "0.205", "0.2", "0.2"),
        ("999", "1001", "1000", "1000"),
        ("34", "41", "36", "40"),
    ],
)
def test_roundest(low: str, high: str, near: str, expected: str) -> None:
    assert roundest(Interval(F(low), F(high)), F(near)) == F(expected)


numbers = st.integers(-60, 60).map(lambda count: Fraction(count, 4))


@given(st.lists(st.tuples(numbers, numbers).map(sorted), min_size=1, max_size=8))
def test_densest_is_the_most_that_any_point_lies_in(ends: list[list[Fraction]]) -> None:
    intervals = [Interval(low, high) for low, high in ends]
    most = max(sum(interval.holds(Fraction(count, 8)) for interval in intervals) for count in range(-130, 131))
    for region in densest(intervals):
        assert region.low is not None
        assert region.high is not None
        middle = (region.low + region.high) / 2
        assert sum(interval.holds(middle) for interval in intervals) == most


@given(numbers, st.integers(1, 40).map(lambda count: Fraction(count, 8)))
def test_roundest_lies_inside(low: Fraction, width: Fraction) -> None:
    interval = Interval(low, low + width)
    assert interval.holds(roundest(interval, low + width / 2))
