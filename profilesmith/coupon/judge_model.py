"""How a judge grades prints along one setting: the chance of each grade, with a spread, a gap between grades and slips.

Along ``u`` prints get worse (u is the logarithm of a value, or a value on a plain scale; see ``scale.py``). The
threshold
``t`` is where 9 of 10 prints are graded good, slips included: a 50 % point is no safe value. With the normal
distribution F,
    P(good) = slip / m + (1 - slip) F(k - (u - t) / spread),   P(good or fair) the same one ``gap`` further up,
where m is the number of grades, a slip is a grade drawn at random, and k makes P(good) at t what it is to be.
The shape is the cumulative probit of ordered answers (McCullagh, J. R. Stat. Soc. B 42 (1980) 109) with lapses.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from math import erfc, exp, log, pi, sqrt
from statistics import NormalDist

from profilesmith.foundation.named_tuple import NamedTuple

GOOD_AT_THRESHOLD = 0.9
GRADES = ("good", "fair", "poor")
PLAIN_GRADES = ("good", "poor")
SPREAD_OF_LONG = pi / sqrt(6)  # of the logarithm of a Weibull variable with shape 1
_ROOT = sqrt(2)


class Eye(NamedTuple):
    """One judge that could be: spread and gap in units of u, slip as a share of grades."""

    spread: float
    gap: float
    slip: float


class Weighed(NamedTuple):
    """Judges and how likely each is before anything was printed; the weights add up to 1."""

    eyes: tuple[Eye, ...]
    weights: tuple[float, ...]


def weigh(
    spreads: Sequence[tuple[float, float]], gaps: Sequence[tuple[float, float]], slips: Sequence[tuple[float, float]]
) -> Weighed:
    """All combinations of (value, weight) of spread, gap and slip."""
    items = [
        (Eye(spread, gap, slip), mine * yours * theirs)
        for spread, mine in spreads
        for gap, yours in gaps
        for slip, theirs in slips
    ]
    total = sum(weight for _, weight in items)
    return Weighed(tuple(eye for eye, _ in items), tuple(weight / total for _, weight in items))


# From a sharp eye to a blurry one. That a judge's good prints end within 4 % or within 34 % of a value covers what a
# bench shows; common practice, no source. The simulation says how well ranges hold for judges that are none of these.
USUAL = weigh(
    spreads=((0.04, 0.26), (0.07, 0.34), (0.12, 0.23), (0.2, 0.13), (0.34, 0.04)),
    gaps=((0.06, 0.25), (0.15, 0.45), (0.4, 0.3)),
    slips=((0.01, 0.6), (0.04, 0.3), (0.12, 0.1)),
)


@lru_cache(maxsize=256)
def good_offset(slip: float, grades: int) -> float:
    """k: how many spreads the middle lies above the threshold."""
    return NormalDist().inv_cdf((GOOD_AT_THRESHOLD - slip / grades) / (1 - slip))


def chances(u: float, t: float, eye: Eye, grades: int = 3) -> tuple[float, ...]:
    """The chance of each grade, from good downwards, at u when the threshold is t."""
    shift = good_offset(eye.slip, grades)
    sure, slipped = 1 - eye.slip, eye.slip / grades
    good = slipped + sure * _below(shift - (u - t) / eye.spread)
    if grades == 2:
        return good, 1 - good
    poor = slipped + sure * _below((u - t - eye.gap) / eye.spread - shift)
    return good, max(1 - good - poor, 0.0), poor


def good_chance(distance: float, eye: Eye, grades: int = 3) -> float:
    """The chance of a good print so far above the threshold, where the judge makes no slip, at half each of two shapes.

    Far below the threshold the shape decides, and a few prints cannot tell it: the normal one, and Weibull's, whose
    share of bad prints fades more slowly (A. B. Watson and D. G. Pelli, "QUEST", Perception & Psychophysics 33 (1983)
    113, use it), with the same threshold and spread.
    """
    normal = _below(good_offset(eye.slip, grades) - distance / eye.spread)
    return (normal + exp(-exp(_long_offset(eye.slip, grades) + SPREAD_OF_LONG * distance / eye.spread))) / 2


@lru_cache(maxsize=256)
def _long_offset(slip: float, grades: int) -> float:
    """What makes the second shape the same at the threshold."""
    return log(-log((GOOD_AT_THRESHOLD - slip / grades) / (1 - slip)))


def _below(z: float) -> float:
    """The normal distribution."""
    return 0.5 * erfc(-z / _ROOT)
