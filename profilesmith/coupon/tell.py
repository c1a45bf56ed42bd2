"""What a coupon's prints tell, as data: a range, a ranking, a verdict with its chance, and what cannot be told."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Literal

from profilesmith.coupon.designs import Alias, aliases
from profilesmith.coupon.effects import FactorEffect, pseudo_error, ranked
from profilesmith.coupon.judge_model import GRADES
from profilesmith.coupon.log import CouponPrint
from profilesmith.coupon.pairs import CHANCE, fisher, sign_test
from profilesmith.coupon.plan import Plan
from profilesmith.coupon.prints_to_make import belief_of, goal_of, pair_order, scale_of, screen_order
from profilesmith.coupon.safe_value import expected_good, safe_u
from profilesmith.coupon.search import CouponStanding, standing
from profilesmith.coupon.threshold import quantile
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.vocabulary.setting import Vocabulary


class ThresholdTold(NamedTuple):
    """low, middle, high: ends of the range in the setting's unit; safe: the value of the rule, rounded to the better
    side; held: the same inside the planned range; good: the share of prints at it that are expected to be good.

    standing: along u. width: half of the range as a share or a difference; expected: the same after the prints that are
    left.
    beyond: "better" or "worse" where that much of the belief lies past that end of the planned range, else "".
    """

    standing: CouponStanding
    low: float
    middle: float
    high: float
    safe: Fraction
    held: Fraction
    good: float
    width: float
    expected: float
    beyond: Literal["", "better", "worse"]


class ScreenTold(NamedTuple):
    """effects: the largest first, in grades (2 from good to poor) from the low to the high level. error: Lenth's.

    done: how many of the rows were graded; a ranking is told when all are.
    """

    effects: tuple[FactorEffect, ...]
    error: float
    aliases: tuple[Alias, ...]
    done: int
    rows: int


class PairTold(NamedTuple):
    """verdict: only when all prints are graded and chance is small enough. good: of A and of B; better: pairs; ties."""

    verdict: Literal["", "A", "B", "neither"]
    chance: Fraction
    a: int
    b: int
    of_a: int
    of_b: int
    ties: int
    done: int
    planned: int


Told = ThresholdTold | ScreenTold | PairTold


def tell(plan: Plan, made: Sequence[CouponPrint], vocabulary: Vocabulary) -> Told:
    """What is known now."""
    if plan.kind == "threshold":
        return tell_threshold(plan, made, vocabulary)
    return tell_screen(plan, made) if plan.kind == "screen" else tell_pair(plan, made)


def tell_threshold(plan: Plan, made: Sequence[CouponPrint], vocabulary: Vocabulary) -> ThresholdTold:
    """The range of the threshold, and the value of the rule."""
    scale = scale_of(plan, vocabulary)
    belief, goal = belief_of(plan, made, vocabulary), goal_of(plan, scale)
    graded = sum(1 for item in made if item.grade)
    stand = standing(belief, graded, goal, scale.ends)
    better, worse = scale.ends
    tail = (1 - goal.sure) / 2
    beyond: Literal["", "better", "worse"] = ""
    if quantile(belief, 1 - tail) > worse:
        beyond = "worse"
    elif quantile(belief, tail) < better:
        beyond = "better"
    safe = scale.safer(safe_u(belief, graded))
    held = min(max(safe, scale.low), scale.high)
    ends = sorted((scale.exact(stand.low), scale.exact(stand.high)))
    return ThresholdTold(
        standing=stand,
        low=ends[0],
        middle=scale.exact(stand.middle),
        high=ends[1],
        safe=safe,
        held=held,
        good=expected_good(belief, scale.u(held)),
        width=scale.spread_of((stand.high - stand.low) / 2),
        expected=scale.spread_of(stand.expected),
        beyond=beyond,
    )


def tell_screen(plan: Plan, made: Sequence[CouponPrint]) -> ScreenTold:
    """The ranking, and what the design mixes up."""
    order = screen_order(plan)
    graded = [(order[item.number - 1], GRADES.index(item.grade)) for item in made if item.grade in GRADES]
    whole = len(graded) == len(order)
    rows = [row for row, _ in graded]
    effects = ranked(rows, [float(grade) for _, grade in graded]) if whole else []
    error = pseudo_error([effect.size for effect in effects]) if effects else 0.0
    return ScreenTold(tuple(effects), error, tuple(aliases(order, 0.1)), len(graded), len(order))


def tell_pair(plan: Plan, made: Sequence[CouponPrint]) -> PairTold:
    """Counts, and a verdict once the planned number is there."""
    order, graded = pair_order(plan), [item for item in made if item.grade]
    if plan.way == "blind":
        winners = [_winner(order[item.number - 1][0], item.grade) for item in graded]
        a, b = winners.count("A"), winners.count("B")
        of_a = of_b = a + b
        ties, chance = winners.count(""), sign_test(b, a)
    else:
        sides = [(order[item.number - 1][0], item.grade == GRADES[0]) for item in graded]
        a, b = (sum(1 for side, good in sides if side == level and good) for level in (-1, 1))
        of_a, of_b = (sum(1 for side, _ in sides if side == level) for level in (-1, 1))
        ties, chance = 0, fisher(a, of_a, b, of_b)
    done = len(graded) == plan.stop.most
    verdict: Literal["", "A", "B", "neither"] = ""
    if done:
        share_a, share_b = (Fraction(count, max(of, 1)) for count, of in ((a, of_a), (b, of_b)))
        verdict = "neither" if chance > CHANCE else "A" if share_a > share_b else "B"
    return PairTold(verdict, chance, a, b, of_a, of_b, ties, len(graded), plan.stop.most)


def _winner(left: int, grade: str) -> Literal["A", "B", ""]:
    """Which of the two was the better one; "" for a tie."""
    if grade == "tie":
        return ""
    side = left if grade == "left" else -left
    return "B" if side > 0 else "A"
