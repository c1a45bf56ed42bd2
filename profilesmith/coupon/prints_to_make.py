"""Which prints come next: values for each kind of plan. The order of screens and pairs is drawn from the plan's
mark.
"""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from fractions import Fraction

from profilesmith.coupon.designs import Row, design
from profilesmith.coupon.judge_model import GRADES
from profilesmith.coupon.log import CouponPrint, Values
from profilesmith.coupon.plan import Factor, Plan
from profilesmith.coupon.scale import Scale, is_ratio
from profilesmith.coupon.search import Goal, begin, learn, several
from profilesmith.coupon.threshold import Belief
from profilesmith.vocabulary.setting import Setting, Value, Vocabulary, read_value


def scale_of(plan: Plan, vocabulary: Vocabulary) -> Scale:
    """The axis of a threshold's setting."""
    factor = plan.factors[0]
    setting = vocabulary.settings[factor.setting]
    assert isinstance(factor.low, Fraction)
    assert isinstance(factor.high, Fraction)
    assert setting.step is not None
    ratio = is_ratio(setting.kind, factor.low)
    return Scale(factor.low, factor.high, setting.step, ratio, factor.worse == "high")


def goal_of(plan: Plan, scale: Scale) -> Goal:
    """The plan's stop along the axis."""
    return Goal(scale.half_width(plan.stop.within), float(plan.stop.sure), plan.stop.most)


def belief_of(plan: Plan, made: Sequence[CouponPrint], vocabulary: Vocabulary) -> Belief:
    """What is known of a threshold after the graded prints."""
    scale, factor = scale_of(plan, vocabulary), plan.factors[0]
    around = None if factor.around is None else min(max(factor.around, scale.low), scale.high)
    graded = [
        (scale.u(number_of(item.values[factor.setting], vocabulary.settings[factor.setting])), GRADES.index(item.grade))
        for item in made
        if item.grade in GRADES
    ]
    return learn(begin(scale, None if around is None else scale.u(around)), graded)


def number_of(text: str, setting: Setting) -> Fraction:
    """A number of a log that was read before."""
    value = read_value(setting, text)
    assert isinstance(value, Fraction)
    return value


def next_prints(plan: Plan, made: Sequence[CouponPrint], count: int, vocabulary: Vocabulary) -> list[CouponPrint]:
    """Prints that are not asked for yet, at most ``count``, numbered on."""
    left = min(count, plan.stop.most - len(made))
    if left <= 0:
        return []
    first = max((item.number for item in made), default=0) + 1
    if plan.kind == "threshold":
        scale = scale_of(plan, vocabulary)
        values = [scale.value(u) for u in several(belief_of(plan, made, vocabulary), scale.ends, left)]
        setting = vocabulary.settings[plan.factors[0].setting]
        return [CouponPrint(number, {setting.id: setting.written(value)}) for number, value in enumerate(values, first)]
    rows = screen_order(plan) if plan.kind == "screen" else pair_order(plan)
    return [_of_row(plan, number, rows[number - 1], vocabulary) for number in range(first, first + left)]


def _of_row(plan: Plan, number: int, row: Row, vocabulary: Vocabulary) -> CouponPrint:
    """A row's print. Of a blind pair both sides: the row is the left one's."""
    if plan.kind == "pair" and plan.way == "blind":
        return CouponPrint(number, _levels(plan, row, vocabulary), _levels(plan, [-level for level in row], vocabulary))
    return CouponPrint(number, _levels(plan, row, vocabulary))


def _levels(plan: Plan, row: Sequence[int], vocabulary: Vocabulary) -> Values:
    return {
        factor.setting: vocabulary.settings[factor.setting].written(level_of(factor, level))
        for factor, level in zip(plan.factors, row, strict=True)
    }


def level_of(factor: Factor, level: int) -> Value:
    """A factor's value at -1 (its first end, A) or +1 (its second, B)."""
    return factor.high if level > 0 else factor.low


def screen_order(plan: Plan) -> list[Row]:
    """The rows of a screen in the order in which they are printed."""
    rows = design(len(plan.factors), plan.stop.most)
    assert rows is not None
    return [rows[number] for number in drawn_order(plan.mark, len(rows))]


def pair_order(plan: Plan) -> list[Row]:
    """For each print of a pair the levels of all factors: A is -1, B is +1; of a blind pair those of its left side.

    Half are A: of graded prints because as many of each are made, of blind pairs so that no side is favoured.
    """
    number, half = plan.stop.most, plan.stop.most // 2
    sides = [(-1 if at < half else 1) for at in drawn_order(plan.mark, number)]
    return [(side,) * len(plan.factors) for side in sides]


def drawn_order(mark: str, count: int) -> list[int]:
    """0 to count - 1 in an order that the mark draws, the same on every machine."""
    return sorted(range(count), key=lambda at: hashlib.sha256(f"{mark} {at}".encode()).digest())
