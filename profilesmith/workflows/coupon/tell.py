"""What a coupon tells, and the rule that it is worth."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from profilesmith.coupon.as_recipe import bound_recipe
from profilesmith.coupon.prints_to_make import scale_of, value_text
from profilesmith.coupon.scale import Scale
from profilesmith.coupon.tell import ThresholdTold, Told, tell
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.foundation.words import plural
from profilesmith.recipe.operations import CAP, RAISE_TO
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.coupon.files import Coupon, read_coupon
from profilesmith.workflows.coupon.next import state_of
from profilesmith.write_files import outputs_free, write_whole

FEWEST = 4  # prints behind a rule


class CouponResult(NamedTuple):
    """rule: the operation and its value, {} where no rule can be written. notes: what is to be said beside it."""

    coupon: Coupon
    told: Told
    rule: Mapping[str, str]
    notes: tuple[str, ...]
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
    notes: list[str] = []
    scale = scale_of(plan, vocabulary) if plan.kind == "threshold" else None
    if isinstance(verdict, ThresholdTold) and scale is not None and verdict.standing.prints >= FEWEST:
        setting = vocabulary.settings[plan.factors[0].setting]
        held = verdict.held
        rule = {(CAP if scale.high_is_worse else RAISE_TO).name: value_text(held, setting)}
        if held != verdict.safe:
            notes.append("held to the planned range: nothing was printed beyond it")
        around = plan.factors[0].around
        if around is not None and (held > around) == scale.high_is_worse and held != around:
            notes.append(
                f"looser than the recipe's {setting.show(around)}: laid over that recipe it changes "
                "nothing; it takes its place"
            )
    return CouponResult(coupon, verdict, rule, tuple(notes), scale, state_of(coupon) == "go on")


def of_a_hundred(share: float) -> str:
    """A share of prints, never rounded up."""
    return f"{int(share * 100)} of 100"


def write_rule(result: CouponResult, out: str, overwrite: bool = False) -> None:
    """The rule as a recipe of its own. Raises Refused."""
    plan, verdict = result.coupon.plan, result.told
    if not result.rule or not isinstance(verdict, ThresholdTold):
        hint = "A rule comes of a threshold with four graded prints or more."
        raise Refused([Problem("no-rule", "These prints are worth no rule yet.", Place(str(result.coupon.path)), hint)])
    setting = load_vocabulary().settings[plan.factors[0].setting]
    (key, text), number = next(iter(result.rule.items())), plural(verdict.standing.prints, "print")
    side = "Up to here" if key == CAP.name else "From here on"
    why = (
        f"{side} {of_a_hundred(verdict.good)} prints are expected to be good for {plan.judged}, with all that "
        f"{number} leave open."
    )
    title = f"{setting.id} by the coupon {plan.name}"
    rule = {"setting": setting.id, key: text}
    raw = bound_recipe(plan, Path(out).stem, title, rule, why, f"coupon {plan.name}, {number}").encode()
    refuse_if(outputs_free([Path(out)], [result.coupon.path, result.coupon.log], overwrite))
    refuse_if(write_whole({Path(out): raw}, overwrite))
