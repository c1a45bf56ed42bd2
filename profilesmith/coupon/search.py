"""The next value of a threshold coupon, when to stop, and what more prints would bring. Pure; all along the axis u."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import exp, sqrt
from statistics import NormalDist
from typing import Literal

from profilesmith.coupon.judge_model import USUAL
from profilesmith.coupon.scale import Scale
from profilesmith.coupon.threshold import Belief, after, chance_of, chance_within, informations, quantile, start
from profilesmith.foundation.named_tuple import NamedTuple

FINEST = 0.03  # between two thresholds of the grid
FEWEST, MOST = 80, 240  # thresholds
LEAST_PRINTS = 4  # before a range is believed; before LOOK_AHEAD nothing is given up
LOOK_AHEAD = 8
BRANCHES = 4
HOPELESS = 1.5  # times the wanted width: a forecast is no promise

State = Literal["go on", "within", "most", "hopeless"]


class Goal(NamedTuple):
    """half: the wanted half width along u; sure: the chance to be inside it; most: prints."""

    half: float
    sure: float
    most: int


class CouponStanding(NamedTuple):
    """Where a coupon stands. low, middle, high: ends of the range (``sure`` of it inside) and its middle, along u.

    expected: the half width that the prints that are left would bring; chance: that the threshold is within the goal
    now.
    next_u: the print that would tell most.
    """

    state: State
    prints: int
    low: float
    middle: float
    high: float
    chance: float
    expected: float
    next_u: float


def begin(scale: Scale, around: float | None, grades: int = 3) -> Belief:
    """What is believed before the first print of a planned range."""
    low, high = scale.ends
    points = min(max(round((high - low + 1.4) / FINEST), FEWEST), MOST)
    return start(low, high, around, USUAL, grades, points)


def learn(belief: Belief, graded: Iterable[tuple[float, int]]) -> Belief:
    """The belief after prints, each with its u and its grade (0 is good)."""
    for u, grade in graded:
        belief = after(belief, u, grade)
    return belief


def next_u(belief: Belief, ends: tuple[float, float]) -> float:
    """The u inside the planned range whose print is expected to tell most."""
    return best(belief, ends)[1]


def best(belief: Belief, ends: tuple[float, float]) -> tuple[float, float]:
    """(information in nats, u) of the print that tells most: every second grid point is looked at, then the
    neighbours.
    """
    inside = [number for number, t in enumerate(belief.thresholds) if ends[0] - 1e-9 <= t <= ends[1] + 1e-9]
    coarse = inside[::2]
    values = informations(belief, [belief.thresholds[number] for number in coarse])
    first = max(range(len(coarse)), key=values.__getitem__)
    near = [number for number in (coarse[first] - 1, coarse[first] + 1) if number in inside]
    beside = informations(belief, [belief.thresholds[number] for number in near])
    ranked = [(values[first], coarse[first]), *zip(beside, near, strict=True)]
    gain, number = max(ranked, key=lambda item: item[0])
    return gain, belief.thresholds[number]


def several(belief: Belief, ends: tuple[float, float], count: int) -> list[float]:
    """Several values for one plate, each the best beside those before it, whichever way those come out.

    Of all ways only the BRANCHES likeliest are followed; each further value is the best over them together.
    """
    chosen = [next_u(belief, ends)]
    ways = [(1.0, belief)]
    while len(chosen) < count:
        ways = sorted(_further(ways, chosen[-1]), key=lambda way: -way[0])[:BRANCHES]
        inside = [t for t in belief.thresholds if ends[0] - 1e-9 <= t <= ends[1] + 1e-9][::2]
        totals = [0.0] * len(inside)
        for share, likely in ways:
            totals = [total + share * gain for total, gain in zip(totals, informations(likely, inside), strict=True)]
        chosen.append(inside[totals.index(max(totals))])
    return chosen


def _further(ways: list[tuple[float, Belief]], u: float) -> Iterator[tuple[float, Belief]]:
    """Every way on with each grade that a print at u may get."""
    for share, belief in ways:
        for grade in range(belief.grades):
            yield share * chance_of(belief, u, grade), after(belief, u, grade)


def standing(belief: Belief, prints: int, goal: Goal, ends: tuple[float, float]) -> CouponStanding:
    """Whether it is worth going on."""
    tail = (1 - goal.sure) / 2
    low, middle, high = (quantile(belief, share) for share in (tail, 0.5, 1 - tail))
    chance = chance_within(belief, middle, goal.half)
    left = max(goal.most - prints, 0)
    gain, u = best(belief, ends)
    expected = outlook(belief, gain, left, goal.sure)
    state: State = "go on"
    if prints >= LEAST_PRINTS and chance >= goal.sure:
        state = "within"
    elif left == 0:
        state = "most"
    elif prints >= LOOK_AHEAD and expected > HOPELESS * goal.half:
        state = "hopeless"
    return CouponStanding(state, prints, low, middle, high, chance, expected, u)


def outlook(belief: Belief, gain: float, more: int, sure: float) -> float:
    """The half width that so many more prints are expected to bring. gain: the information of the best one now, in
    nats.

    As if the belief were normal and each print told as much: with information I its precision is (exp(2 I) - 1) /
    variance. Later prints tell a little less or more; the simulation holds it against what came.
    """
    shares = belief.shares
    mean = sum(t * share for t, share in zip(belief.thresholds, shares, strict=True))
    variance = sum((t - mean) ** 2 * share for t, share in zip(belief.thresholds, shares, strict=True))
    precision = (1 + more * (exp(2 * gain) - 1)) / variance
    return NormalDist().inv_cdf(0.5 + sure / 2) * sqrt(1 / precision)
