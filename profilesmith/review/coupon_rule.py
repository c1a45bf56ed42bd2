"""The words of the recipe that a coupon's prints are worth: its title, and the reason and source of its rule."""

from __future__ import annotations

from profilesmith.coupon.plan import Plan
from profilesmith.coupon.tell import ThresholdTold
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.words import plural


class RuleWords(NamedTuple):
    title: str
    why: str
    source: str


def coupon_rule_words(plan: Plan, setting: str, result: ThresholdTold, is_cap: bool) -> RuleWords:
    number = plural(result.standing.prints, "print")
    side = "Up to here" if is_cap else "From here on"
    why = (
        f"{side} {of_a_hundred(result.good)} prints are expected to be good for {plan.judged}, with all that "
        f"{number} leave open."
    )
    return RuleWords(f"{setting} by the coupon {plan.name}", why, f"coupon {plan.name}, {number}")


def of_a_hundred(share: float) -> str:
    """A share of prints, never rounded up."""
    return f"{int(share * 100)} of 100"
