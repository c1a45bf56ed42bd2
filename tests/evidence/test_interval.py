"""The exact interval for k of n, against published tables and another program's numbers.

Outside checks: NIST/SEMATECH e-Handbook of Statistical Methods 7.2.4.1; R. G. Newcombe, Statistics in Medicine 17
(1998) 857, table I, "exact" (digits from memory, recomputed); SciPy's ``binomtest`` as a second reckoning.
"""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import binomtest

from profilesmith.evidence.interval import exact_interval


def test_nist_worked_example() -> None:
    """4 defects in 20 at 90 %: 0.071354 and 0.401029. The page's last digit comes from its own root finder."""
    found = exact_interval(4, 20, 0.90)
    assert found.low == pytest.approx(0.071354, abs=2e-6)
    assert found.high == pytest.approx(0.401029, abs=2e-6)


@pytest.mark.parametrize(
    ("worked", "tried", "low", "high"),
    [(81, 263, 0.2527, 0.3676), (15, 148, 0.0578, 0.1617), (0, 20, 0.0, 0.1684), (1, 29, 0.0009, 0.1776)],
)
def test_newcombe_1998(worked: int, tried: int, low: float, high: float) -> None:
    found = exact_interval(worked, tried)
    assert found.low == pytest.approx(low, abs=5e-5)
    assert found.high == pytest.approx(high, abs=5e-5)


@pytest.mark.parametrize("tried", [1, 2, 3, 5, 10, 28, 1000])
def test_all_that_worked_has_a_closed_form(tried: int) -> None:
    """k = n: the lower limit is the n-th root of alpha / 2; three of three allow no more than 0.292402."""
    found = exact_interval(tried, tried)
    assert found.low == pytest.approx(0.025 ** (1 / tried), rel=1e-12)
    assert found.high == 1.0
    none = exact_interval(0, tried)
    assert (none.low, none.high) == (0.0, pytest.approx(1 - 0.025 ** (1 / tried), rel=1e-12))


def test_three_of_three() -> None:
    assert exact_interval(3, 3).low == pytest.approx(0.292402, abs=1e-6)


@pytest.mark.parametrize("level", [0.5, 0.9, 0.95, 0.99])
@pytest.mark.parametrize("tried", [*range(1, 31), 50, 137, 1000, 10_000])
def test_scipy_finds_the_same(tried: int, level: float) -> None:
    counts = range(tried + 1) if tried <= 30 else (0, 1, 2, tried // 3, tried // 2, tried - 1, tried)
    for worked in counts:
        other = binomtest(worked, tried).proportion_ci(level, "exact")
        found = exact_interval(worked, tried, level)
        assert found.low == pytest.approx(other.low, abs=1e-9)
        assert found.high == pytest.approx(other.high, abs=1e-9)


@given(st.integers(1, 60).flatmap(lambda tried: st.tuples(st.integers(1, tried), st.just(tried))))
def test_at_the_lower_limit_the_chance_is_exactly_that(counts: tuple[int, int]) -> None:
    """The definition itself, in exact fractions: P(X >= k) at the limit is 2.5 %."""
    worked, tried = counts
    share = Fraction(exact_interval(worked, tried).low)
    chance = sum(math.comb(tried, at) * share**at * (1 - share) ** (tried - at) for at in range(worked, tried + 1))
    assert float(chance) == pytest.approx(0.025, rel=1e-9)


@given(st.integers(1, 200).flatmap(lambda tried: st.tuples(st.integers(0, tried), st.just(tried))))
def test_what_was_seen_lies_inside_and_the_mirror_image_is_the_same(counts: tuple[int, int]) -> None:
    worked, tried = counts
    found, mirrored = exact_interval(worked, tried), exact_interval(tried - worked, tried)
    assert 0 <= found.low <= worked / tried <= found.high <= 1
    assert found.low == pytest.approx(1 - mirrored.high, abs=1e-12)
    assert found.high == pytest.approx(1 - mirrored.low, abs=1e-12)


@pytest.mark.parametrize(
    ("worked", "tried", "level"), [(0, 0, 0.95), (-1, 3, 0.95), (4, 3, 0.95), (1, 3, 0.0), (1, 3, 1.0)]
)
def test_what_is_no_count_is_refused(worked: int, tried: int, level: float) -> None:
    with pytest.raises(ValueError, match="no interval"):
        exact_interval(worked, tried, level)
