"""Numbers for people: few digits, never misleading ones."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from profilesmith.checks.amounts import apart, bracket, degrees, few, mm, percent, span, span_mm
from profilesmith.foundation.words import listed
from profilesmith.physics.answer import Bracket

SIZES = st.floats(1e-6, 1e6)


def test_few_digits() -> None:
    assert [few(value) for value in (0, 3.2566, 0.0571, 150.4, 12, 0.5)] == ["0", "3.3", "0.057", "150", "12", "0.5"]


def test_lengths_and_temperatures() -> None:
    assert (mm(1.264159), mm(0.2), mm(0.0042), span_mm(0.1, 0.3)) == ("1.26 mm", "0.2 mm", "0.004 mm", "0.1 to 0.3 mm")
    assert (degrees(215.0), degrees(212.25)) == ("215 °C", "212.2 °C")
    assert percent(0.0566) == "5.7 %"


def test_a_range_is_rounded_outward() -> None:
    assert span(1, 2.25) == "1 to 2.3"
    assert bracket(Bracket(0.01255, 0.5), "%", 100) == "1.25 to 50 %"
    assert bracket(Bracket(0.981, 1.0002), "%", 100) == "98 to 100 %"
    assert bracket(Bracket(2.0, 2.0)) == "2"


@settings(deadline=None)
@given(SIZES, SIZES)
def test_a_shown_range_holds_the_range(one: float, other: float) -> None:
    low, high = min(one, other), max(one, other)
    ends = span(low, high).split(" to ")
    if len(ends) == 2:
        assert float(ends[0]) <= low * (1 + 1e-3)
        assert float(ends[1]) >= high * (1 - 1e-3)
    else:
        assert high <= low * 1.01


@settings(deadline=None)
@given(SIZES, st.floats(1.0001, 3))
def test_different_numbers_look_different(value: float, factor: float) -> None:
    one, other = apart(value, value * factor)
    assert one != other
    assert float(one) < float(other)


def test_lists() -> None:
    assert [listed(words) for words in ([], ["a"], ["a", "b"], ["a", "b", "c"])] == ["", "a", "a and b", "a, b and c"]
