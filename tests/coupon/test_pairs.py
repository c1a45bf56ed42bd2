"""Exact tests for small numbers, against SciPy and against counting by hand."""

from fractions import Fraction
from itertools import product

import pytest
from scipy.stats import binomtest, fisher_exact

from profilesmith.coupon.pairs import fisher, least_fisher, least_sign, sign_test


@pytest.mark.parametrize(("each", "chance"), [(2, "1/3"), (3, "1/10"), (4, "1/35"), (5, "1/126")])
def test_least_chance_of_equal_numbers(each: int, chance: str) -> None:
    """2 / C(2n, n): of all ways to choose who is good, the two extreme ones. SciPy agrees."""
    assert least_fisher(each) == Fraction(chance)
    assert float(least_fisher(each)) == pytest.approx(fisher_exact([[each, 0], [0, each]]).pvalue, abs=1e-12)


def test_fisher_is_scipys() -> None:
    for of_a, of_b in ((4, 4), (5, 3), (6, 6)):
        for a, b in product(range(of_a + 1), range(of_b + 1)):
            theirs = fisher_exact([[a, of_a - a], [b, of_b - b]]).pvalue
            assert float(fisher(a, of_a, b, of_b)) == pytest.approx(theirs, abs=1e-9), (a, of_a, b, of_b)


def test_tea_with_milk() -> None:
    """Fisher, The Design of Experiments (1935): eight cups, three of four found: one-sided 17/70, two-sided 34/70."""
    assert fisher(3, 4, 1, 4) == Fraction(34, 70)


def test_blind_pairs() -> None:
    """All of six: 2 / 2^6. The two-sided binomial test of SciPy agrees where both are symmetric."""
    assert least_sign(6) == Fraction(1, 32)
    assert least_sign(5) > Fraction(1, 20)
    for b, a in product(range(7), repeat=2):
        if a + b:
            assert float(sign_test(b, a)) == pytest.approx(binomtest(b, a + b).pvalue, abs=1e-12)
    assert sign_test(0, 0) == 1


def test_counts_that_cannot_be() -> None:
    with pytest.raises(ValueError, match="no such counts"):
        fisher(5, 4, 0, 4)
