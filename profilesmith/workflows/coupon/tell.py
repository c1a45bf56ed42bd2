"""What a coupon tells, and the rule that it is worth."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Literal

from profilesmith.coupon.as_recipe import bound_recipe
from profilesmith.coupon.prints_to_make import scale_of
from profilesmith.coupon.scale import Scale
from profilesmith.coupon.tell import ThresholdTold, Told, tell
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.recipe.operations import CAP, RAISE_TO
from profilesmith.review.coupon_rule import coupon_rule_words
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.coupon.files import Coupon, read_coupon
from profilesmith.workflows.coupon.next import state_of
from profilesmith.write_files import outputs_free, write_whole

RuleNote = Literal["held to range", "looser"]
FEWEST = 4  # prints behind a rule


class CouponResult(NamedTuple):
    """rule: the operation and its value, {} where no rule can be written. notes: what is to be known of it.

    ``held to range``: nothing was printed beyond it; ``looser``: than the recipe's own value, whose place it takes.
    """

    coupon: Coupon
    told: Told
    rule: Mapping[str, str]
    notes: tuple[RuleNote, ...]
    scale: Scale | None
    ask_next: bool


def tell_of(name: str) -> CouponResult:
    """Raises Refused."""
    return told_of(read_coupon(name))


def told_of(coupon: Coupon) -> CouponResult:
    """As ``tell_of``, of a coupon that was read."""
    vocabulary = load_vocabulary()
    plan = coupon.plan
    verdict = tell(plan, coupon.made, vocabulary)
    rule: dict[str, str] = {}
    notes: list[RuleNote] = []
    scale = scale_of(plan, vocabulary) if plan.kind == "threshold" else None
    if isinstance(verdict, ThresholdTold) and scale is not None and verdict.standing.prints >= FEWEST:
        setting = vocabulary.settings[plan.factors[0].setting]
        held = verdict.held
        rule = {(CAP if scale.high_is_worse else RAISE_TO).name: setting.written(held)}
        if held != verdict.safe:
            notes.append("held to range")
        around = plan.factors[0].around
        if around is not None and (held > around) == scale.high_is_worse and held != around:
            notes.append("looser")
    return CouponResult(coupon, verdict, rule, tuple(notes), scale, state_of(coupon) == "go on")


def write_rule(result: CouponResult, out: str, overwrite: bool = False) -> None:
    """The rule as a recipe of its own. Raises Refused."""
    plan, verdict = result.coupon.plan, result.told
    if not result.rule or not isinstance(verdict, ThresholdTold):
        hint = "A rule comes of a threshold with four graded prints or more."
        raise Refused([Problem("no-rule", "These prints are worth no rule yet.", Place(str(result.coupon.path)), hint)])
    setting = load_vocabulary().settings[plan.factors[0].setting]
    key, text = next(iter(result.rule.items()))
    words = coupon_rule_words(plan, setting.id, verdict, key == CAP.name)
    rule = {"setting": setting.id, key: text}
    raw = bound_recipe(plan, Path(out).stem, words.title, rule, words.why, words.source).encode()
    refuse_if(outputs_free([Path(out)], [result.coupon.path, result.coupon.log], overwrite))
    refuse_if(write_whole({Path(out): raw}, overwrite))
