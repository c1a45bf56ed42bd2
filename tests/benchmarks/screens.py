"""Screens in simulation: ``python -m tests.benchmarks.screens [NUMBER]``. Two active factors of seven, twelve prints.

"An effect of 2 noise deviations" has two readings: from the low to the high level the mean moves by 2 (the factor's
coefficient is 1), or it moves by 2 up and down about the middle (the coefficient is 2). An interaction of two factors,
any two, has half of it. Both are told. Beside what the ranking finds stands what nobody can do better: a ranking that
knew the sizes of effects, interaction and noise and where the grades part, and had to find only which factors and which
signs: all 3,528 worlds are weighed by the likelihood of the twelve grades.
"""

from __future__ import annotations

import math
import random
import sys
from functools import cache
from itertools import combinations

import numpy as np
from scipy.stats import norm

from profilesmith.coupon.designs import twelve
from profilesmith.coupon.effects import ranked
from profilesmith.evidence.interval import exact_interval

FACTORS, CUTS = 7, (0.5, 1.0, 1.5, math.inf)
READINGS = {1.0: "from low to high (coefficient 1)", 2.0: "about the middle (coefficient 2)"}
FIRST = 5000  # of the seeds; the ranking's numbers were chosen on seeds below
PAIRS = list(combinations(range(FACTORS), 2))
SIGNS = (-1, 1)


def drawn(seed: int, size: float, cut: float) -> tuple[set[int], list[float]]:
    """The two active factors, and the grades of twelve prints in a random order.

    size: the coefficient of an active factor in noise deviations; an interaction has half of it. cut: where grades
    part, above and below the middle; infinite for no grades but the amount itself.
    """
    dice = random.Random(seed)
    one, other = dice.sample(range(FACTORS), 2)
    left, right = dice.sample(range(FACTORS), 2)
    signs = [dice.choice(SIGNS) for _ in range(3)]
    grades = []
    for levels in twelve(FACTORS):
        seen = size * (signs[0] * levels[one] + signs[1] * levels[other])
        seen += size / 2 * signs[2] * levels[left] * levels[right] + dice.gauss(0, 1)
        grades.append(seen if math.isinf(cut) else 0.0 if seen < -cut else 1.0 if seen < cut else 2.0)
    return {one, other}, grades


def screen(seed: int, size: float, cut: float = 1.0) -> bool:
    """Whether both active factors come first."""
    active, grades = drawn(seed, size, cut)
    return active == {effect.factor for effect in ranked(twelve(FACTORS), grades)[:2]}


def best_possible(seed: int, size: float, cut: float = 1.0) -> bool:
    """The same of a ranking that knows all but which factors and which signs."""
    active, grades = drawn(seed, size, cut)
    means, pairs = _worlds(size)
    seen = np.array(grades)
    if math.isinf(cut):
        scores = -0.5 * ((seen - means) ** 2).sum(axis=1)
    else:
        chances = _chances(size, cut)
        scores = sum(chances[int(grade)][:, row] for row, grade in enumerate(grades))
    weights = np.bincount(pairs, np.exp(scores - scores.max()), len(PAIRS))
    return active == set(PAIRS[int(weights.argmax())])


@cache
def _worlds(size: float) -> tuple[np.ndarray, np.ndarray]:
    """The mean of each print in every world, and each world's pair of active factors."""
    columns = np.array(twelve(FACTORS), float).T
    means, pairs = [], []
    for number, (one, other) in enumerate(PAIRS):
        for first in SIGNS:
            for second in SIGNS:
                plain = size * (first * columns[one] + second * columns[other])
                for left, right in PAIRS:
                    for sign in SIGNS:
                        means.append(plain + size / 2 * sign * columns[left] * columns[right])
                        pairs.append(number)
    return np.array(means), np.array(pairs)


@cache
def _chances(size: float, cut: float) -> list[np.ndarray]:
    """For each grade the logarithm of its chance, by world and print."""
    means, _ = _worlds(size)
    low, high = norm.cdf(-cut - means), norm.cdf(cut - means)
    return [np.log(np.maximum(share, 1e-300)) for share in (low, high - low, 1 - high)]


def screens(number: int) -> None:
    """Both readings, with exact 95 % intervals."""
    print(f"screens: both of two active factors among seven ranked first, 12 prints; {number} each; grades cut at")
    print(f"  {'effects of 2 noise deviations':<34}{'±0.5':<26}{'±1':<26}{'±1.5':<26}the amount itself")
    for size, words in READINGS.items():
        for name, finds in (("", screen), ("  at best", best_possible)):
            cells = []
            for cut in CUTS:
                good = sum(finds(seed, size, cut) for seed in range(FIRST, FIRST + number))
                low, high, _ = exact_interval(good, number)
                cells.append(f"{good / number:.3f} ({low:.3f} to {high:.3f})")
            print(f"  {name or words:<34}{''.join(f'{cell:<26}' for cell in cells)}", flush=True)


if __name__ == "__main__":
    screens(int(sys.argv[1]) if len(sys.argv) > 1 else 1500)
