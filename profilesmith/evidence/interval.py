"""How many of all such prints would work, when k of n did: the exact interval of Clopper and Pearson (1934).

C. J. Clopper and E. S. Pearson, "The use of confidence or fiducial limits illustrated in the case of the binomial",
Biometrika 26 (1934) 404: the lower limit is the share at which k or more of n would be seen with a chance of alpha / 2.
The chance is summed from the largest term downwards, and the share is found by halving until doubles have no number
between; both limits come from one function, since k that worked are n - k that did not.
"""

from __future__ import annotations

import math

from profilesmith.foundation.named_tuple import NamedTuple

LEVEL = 0.95


class ShareInterval(NamedTuple):
    """low, high: shares from 0 to 1; level: the confidence."""

    low: float
    high: float
    level: float = LEVEL


def exact_interval(worked: int, tried: int, level: float = LEVEL) -> ShareInterval:
    """Both limits. Raises ValueError unless 0 <= worked <= tried, tried > 0 and 0 < level < 1."""
    if not (tried > 0 and 0 <= worked <= tried and 0 < level < 1):
        raise ValueError(f"no interval for {worked} of {tried} at {level}")
    tail = (1 - level) / 2
    return ShareInterval(_lower(worked, tried, tail), 1 - _lower(tried - worked, tried, tail), level)


def _lower(worked: int, tried: int, tail: float) -> float:
    """The share at which the chance of ``worked`` or more is ``tail``; the chance grows with the share."""
    if worked == 0:
        return 0.0
    ways = math.log(math.comb(tried, worked))
    low, high = 0.0, worked / tried
    while True:
        middle = (low + high) / 2
        if not low < middle < high:
            return low
        if _at_least(worked, tried, middle, ways) < tail:
            low = middle
        else:
            high = middle


def _at_least(worked: int, tried: int, share: float, ways: float) -> float:
    """The chance of ``worked`` or more of ``tried``, for a share below worked / tried, so that terms only get
    smaller.
    """
    rest = 0.0 if worked == tried else (tried - worked) * math.log1p(-share)
    logarithm = ways + worked * math.log(share) + rest
    if logarithm < -700:
        return 0.0
    term, odds = math.exp(logarithm), share / (1 - share)
    terms = [term]
    for count in range(worked, tried):
        term *= (tried - count) / (count + 1) * odds
        terms.append(term)
        if term < terms[0] * 1e-18:
            break
    return math.fsum(terms)
