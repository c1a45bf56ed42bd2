"""Brackets and refusals: what they hold, and that the guards let nothing pass that is no size."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilesmith.physics.answer import (
    Bracket,
    NotValid,
    require_not_negative,
    require_positive,
    require_share,
    spanning,
)
from tests.physics.ranges import law

numbers = st.floats(0.01, 100)
brackets = st.tuples(numbers, numbers).map(lambda pair: Bracket(min(pair), max(pair)))


@pytest.mark.parametrize(("low", "high"), [(2.0, 1.0), (math.nan, 1.0), (0.0, math.nan)])
def test_a_bracket_the_wrong_way_round_is_refused(low: float, high: float) -> None:
    with pytest.raises(ValueError, match="holds nothing"):
        Bracket(low, high)


def test_answers_cannot_be_changed() -> None:
    with pytest.raises(AttributeError):
        Bracket(1, 2).low = 0  # type: ignore[misc]
    with pytest.raises(AttributeError):
        NotValid("too short").reason = ""  # type: ignore[misc]


@law
@given(brackets, brackets, st.floats(0, 1), st.floats(0, 1))
def test_a_quotient_of_brackets_holds_every_quotient(top: Bracket, bottom: Bracket, a: float, b: float) -> None:
    upper = top.low + a * (top.high - top.low)
    lower = bottom.low + b * (bottom.high - bottom.low)
    quotient = top.over(bottom)
    assert quotient.low * (1 - 1e-12) <= upper / lower <= quotient.high * (1 + 1e-12)


def test_brackets_that_reach_zero_cannot_divide() -> None:
    assert Bracket(0, 2).over(Bracket(1, 4)) == Bracket(0, 2)
    with pytest.raises(ValueError, match="above zero"):
        Bracket(1, 2).over(Bracket(0, 1))


@law
@given(st.lists(brackets, min_size=1))
def test_spanning_holds_all_and_nothing_more(held: list[Bracket]) -> None:
    span = spanning(held)
    assert all(span.holds(bracket.low) and span.holds(bracket.high) for bracket in held)
    assert span.low in {bracket.low for bracket in held}
    assert span.high in {bracket.high for bracket in held}


@pytest.mark.parametrize("value", [0, -1, math.inf, -math.inf, math.nan])
def test_what_must_be_positive(value: float) -> None:
    require_positive(width_mm=1e-9)
    with pytest.raises(ValueError, match="width_mm"):
        require_positive(width_mm=value)


@pytest.mark.parametrize("value", [-1e-9, math.inf, math.nan])
def test_what_must_not_be_negative(value: float) -> None:
    require_not_negative(width_mm=0)
    with pytest.raises(ValueError, match="width_mm"):
        require_not_negative(width_mm=value)


@pytest.mark.parametrize("value", [-0.01, 1.01, 15, math.nan])
def test_what_must_be_a_share(value: float) -> None:
    require_share(density_share=0)
    require_share(density_share=1)
    with pytest.raises(ValueError, match="density_share is a share"):
        require_share(density_share=value)
