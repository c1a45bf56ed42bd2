"""Where the threshold may lie, after each grade: a Bayesian grid over threshold and judge.

After D. G. Pelli and B. Farell's QUEST line of methods, in the form of A. B. Watson, "QUEST+", J. Vision 17 (2017)
3:10: posterior over a grid, next value by expected information. Here the information counts that is about the
threshold, with spread, gap and slips integrated out (N. Prins, J. Vision 13 (2013) 7:3). Pure Python; what is seen
below knows no units.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import lru_cache
from math import exp, log
from operator import mul

from profilesmith.coupon.judge_model import USUAL, Weighed, chances
from profilesmith.foundation.named_tuple import NamedTuple

FLAT_SHARE = 0.15  # of the prior: the recipe may be wrong by any amount
PRIOR_SPREAD = 0.5  # of the rest, in units of u: a recipe is usually right within some 60 %
NEGLIGIBLE = 1e-7  # of the likeliest threshold; such rows are not asked when the next value is chosen
NOTHING = 1e-16  # of the likeliest threshold; such rows are left as they are
MOST_KEPT = 20_000
Shares = tuple[float, ...]


class Belief(NamedTuple):
    """thresholds: equally spaced. joint: for each threshold the shares of the judges; all add up to 1."""

    thresholds: tuple[float, ...]
    joint: tuple[Shares, ...]
    judges: Weighed
    grades: int = 3

    @property
    def shares(self) -> Shares:
        """How likely each threshold is."""
        return tuple(map(sum, self.joint))


def start(
    low: float,
    high: float,
    around: float | None,
    judges: Weighed = USUAL,
    grades: int = 3,
    points: int = 120,
    margin: float = 0.7,
) -> Belief:
    """What is believed before the first print: low and high as planned, the threshold a factor of two beyond at most.

    around: the recipe's value. A grid that ends at the plan's range would lie: its ends would gather what lies beyond.
    """
    first, last = low - margin, high + margin
    step = (last - first) / (points - 1)
    thresholds = tuple(first + step * number for number in range(points))
    flat = [1 / points] * points
    if around is None:
        shares = flat
    else:
        bell = [exp(-0.5 * ((t - around) / PRIOR_SPREAD) ** 2) for t in thresholds]
        total = sum(bell)
        shares = [FLAT_SHARE * even + (1 - FLAT_SHARE) * item / total for even, item in zip(flat, bell, strict=True)]
    return Belief(thresholds, tuple(tuple(share * w for w in judges.weights) for share in shares), judges, grades)


def after(belief: Belief, u: float, grade: int) -> Belief:
    """The belief once a print at u was graded; grade 0 is good."""
    columns = _columns(belief.judges, belief.grades)
    least = max(belief.shares) * NOTHING
    rows = [
        tuple(map(mul, row, columns(u - t)[grade])) if share > least else row
        for t, row, share in zip(belief.thresholds, belief.joint, belief.shares, strict=True)
    ]
    total = sum(map(sum, rows))
    return belief._replace(joint=tuple(tuple([share / total for share in row]) for row in rows))


def chance_of(belief: Belief, u: float, grade: int) -> float:
    """How likely that grade is at u, by all that is believed."""
    columns = _columns(belief.judges, belief.grades)
    return sum(
        sum(map(mul, row, columns(u - t)[grade])) for t, row in zip(belief.thresholds, belief.joint, strict=True)
    )


def quantile(belief: Belief, share: float) -> float:
    """The value below which the threshold lies with that chance; each grid point stands for the cell around it."""
    step = belief.thresholds[1] - belief.thresholds[0]
    below = 0.0
    for t, mass in zip(belief.thresholds, belief.shares, strict=True):
        if below + mass >= share and mass > 0:
            return t - step / 2 + step * (share - below) / mass
        below += mass
    return belief.thresholds[-1] + step / 2


def chance_within(belief: Belief, centre: float, half: float) -> float:
    """The chance that the threshold lies within ``half`` of ``centre``."""
    step = belief.thresholds[1] - belief.thresholds[0]
    total = 0.0
    for t, mass in zip(belief.thresholds, belief.shares, strict=True):
        overlap = min(t + step / 2, centre + half) - max(t - step / 2, centre - half)
        total += mass * min(max(overlap / step, 0.0), 1.0)
    return total


def informations(belief: Belief, values: Sequence[float]) -> list[float]:
    """The expected information of a print at each value about the threshold, in nats."""
    shares = belief.shares
    least = max(shares) * NEGLIGIBLE
    rows = [item for item in zip(belief.thresholds, belief.joint, shares, strict=True) if item[2] > least]
    columns = _columns(belief.judges, belief.grades)
    return [_information(rows, u, columns, belief.grades) for u in values]


def _information(rows: Sequence[tuple[float, Shares, float]], u: float, columns: Columns, grades: int) -> float:
    totals = [0.0] * grades
    known = 0.0
    last = grades - 1
    for t, row, share in rows:
        left = share  # the chances of all grades add up to 1, so the last one is what is left
        for grade, column in enumerate(columns(u - t)):
            joint = left if grade == last else sum(map(mul, row, column))
            left -= joint
            if joint > 0:
                totals[grade] += joint
                known += joint * log(joint / share)
    return known - sum(total * log(total) for total in totals if total > 0)


Columns = Callable[[float], tuple[Shares, ...]]


@lru_cache(maxsize=8)
def _columns(judges: Weighed, grades: int) -> Columns:
    """For a distance from the threshold: the chance of each grade, for every judge. On one grid distances come
    again.
    """
    known: dict[float, tuple[Shares, ...]] = {}

    def columns(distance: float) -> tuple[Shares, ...]:
        distance = round(distance, 12)
        shares = known.get(distance)
        if shares is None:
            if len(known) > MOST_KEPT:
                known.clear()
            shares = known[distance] = tuple(
                zip(*[chances(distance, 0.0, eye, grades) for eye in judges.eyes], strict=True)
            )
        return shares

    return columns
