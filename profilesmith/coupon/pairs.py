"""Is B better than A? Exact tests for small numbers, and what they can tell at best, before anything is printed.

Fisher's exact test on prints graded good or not (R. A. Fisher, "The Logic of Inductive Inference", J. R. Stat. Soc. 98
(1935) 39; two-sided: every table that is no likelier than the seen one). The sign test on blind pairs: how often the
better one was the same. Ties are told and not counted. All is exact: ``Fraction``.
"""

from fractions import Fraction
from math import comb

CHANCE = Fraction(1, 20)  # a difference is told where chance alone would show one as large in one of twenty trials
LEAST_EACH, LEAST_PAIRS = 4, 6  # below these nothing can be told whatever is seen


def fisher(good_a: int, of_a: int, good_b: int, of_b: int) -> Fraction:
    """The two-sided chance of a difference as large as this where there is none. Raises ValueError for counts that
    cannot be.
    """
    if not (0 <= good_a <= of_a and 0 <= good_b <= of_b):
        raise ValueError(f"no such counts: {good_a} of {of_a}, {good_b} of {of_b}")
    good, all_of = good_a + good_b, of_a + of_b
    ways = {
        count: comb(of_a, count) * comb(of_b, good - count) for count in range(max(0, good - of_b), min(good, of_a) + 1)
    }
    return Fraction(sum(way for way in ways.values() if way <= ways[good_a]), comb(all_of, good))


def sign_test(better_b: int, better_a: int) -> Fraction:
    """The two-sided chance of pairs as unequal as these where neither is better; ties are left out. 1 without pairs."""
    number, most = better_a + better_b, max(better_a, better_b)
    tail = Fraction(sum(comb(number, count) for count in range(most, number + 1)), 2**number)
    return min(2 * tail, Fraction(1))


def least_fisher(each: int) -> Fraction:
    """The smallest two-sided chance that so many of each can show: all of one good, none of the other."""
    return fisher(each, each, 0, each)


def least_sign(pairs: int) -> Fraction:
    """The smallest two-sided chance that so many pairs can show."""
    return sign_test(pairs, 0)
