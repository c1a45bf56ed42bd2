"""What a coupon tells, in words for a terminal, and as JSON. Nothing is worked out here."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from profilesmith.coupon.plan import Plan
from profilesmith.coupon.prints_to_make import scale_of
from profilesmith.coupon.scale import Scale
from profilesmith.coupon.tell import PairTold, ScreenTold, ThresholdTold
from profilesmith.foundation.words import plural
from profilesmith.review.coupon_rule import of_a_hundred
from profilesmith.review.wording import visible
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Setting
from profilesmith.workflows.coupon.tell import CouponResult, RuleNote

FIGURE = 61  # columns


def tell_lines(result: CouponResult) -> list[str]:
    """All that is known, what cannot be told, and the rule that it is worth."""
    coupon, verdict = result.coupon, result.told
    lines = [question(coupon.plan)]
    if isinstance(verdict, ThresholdTold):
        lines += _threshold_lines(coupon.plan, verdict, result.scale)
    elif isinstance(verdict, ScreenTold):
        lines += _screen_lines(coupon.plan, verdict)
    else:
        lines += _pair_lines(coupon.plan, verdict)
    if result.rule:
        (key, text), setting = next(iter(result.rule.items())), coupon.plan.factors[0].setting
        lines.append(f'The rule that it is worth: {setting} {key} = "{text}"')
        if isinstance(verdict, ThresholdTold):
            lines.append(f"  {of_a_hundred(verdict.good)} prints there are expected to be good, slips aside.")
        lines += [f"  {_note(note, result)}" for note in result.notes]
    return lines


def _note(note: RuleNote, result: CouponResult) -> str:
    if note == "held to range":
        return "held to the planned range: nothing was printed beyond it"
    around = result.coupon.plan.factors[0].around
    assert around is not None
    value = setting_of(result.coupon.plan).show(around)
    return f"looser than the recipe's {value}: laid over that recipe it changes nothing; it takes its place"


def question(plan: Plan) -> str:
    names = ", ".join(factor.setting for factor in plan.factors)
    if plan.kind == "threshold":
        side = "above" if plan.factors[0].worse == "high" else "below"
        return (
            f"Asks at which {names} 9 of 10 prints are still graded good for {visible(plan.judged)}; "
            f"{side} it they get worse."
        )
    if plan.kind == "screen":
        return f"Asks which of {names} matters most for {visible(plan.judged)}."
    return f"Asks whether B or A is better for {visible(plan.judged)}; they differ in {names}."


def setting_of(plan: Plan) -> Setting:
    return load_vocabulary().settings[plan.factors[0].setting]


def shown(value: float, setting: Setting) -> str:
    """A value that was worked out, with as many digits as are worth writing; never one that no setting has."""
    step, number = setting.step or Fraction(1), Fraction(value)
    if setting.low is not None and setting.high is not None:
        number = min(max(number, setting.low), setting.high)
    return setting.show(round(number / step) * step)


def range_line(plan: Plan, threshold: ThresholdTold) -> str:
    setting, sure = setting_of(plan), f"{float(plan.stop.sure):.0%}"
    ends = f"{shown(threshold.low, setting)} and {shown(threshold.high, setting)}"
    return (
        (
            f"9 of 10 are good up to some {shown(threshold.middle, setting)}; with a chance of {sure} that "
            f"point lies between {ends}."
        )
        if (plan.factors[0].worse == "high")
        else (
            f"9 of 10 are good from some {shown(threshold.middle, setting)} on; with a chance of {sure} that "
            f"point lies between {ends}."
        )
    )


def _threshold_lines(plan: Plan, threshold: ThresholdTold, scale: Scale | None) -> list[str]:
    lines = [f"{plural(threshold.standing.prints, 'print')} graded.", range_line(plan, threshold)]
    lines += _figure(plan, threshold, scale) if scale else []
    if threshold.beyond:
        factor, setting = plan.factors[0], setting_of(plan)
        low_end = (threshold.beyond == "better") == (factor.worse == "high")
        end, limit = (factor.low, setting.low) if low_end else (factor.high, setting.high)
        if end != limit:  # else there is nothing beyond it
            lines.append(
                f"It may lie beyond the planned range (past {setting.show(end)}): a plan with a wider range would tell,"
                " where the machine allows it."
            )
    lines.append(_state(plan, threshold))
    return lines


def _width(plan: Plan, width: float, scale_is_ratio: bool) -> str:
    setting = setting_of(plan)
    step = setting.step or Fraction(1)
    return f"±{width:.0%}" if scale_is_ratio else f"±{setting.show(round(Fraction(width) / step) * step)}"


def _state(plan: Plan, threshold: ThresholdTold) -> str:
    ratio, stand = scale_of(plan, load_vocabulary()).ratio, threshold.standing
    now, later = _width(plan, threshold.width, ratio), _width(plan, threshold.expected, ratio)
    left = plan.stop.most - stand.prints
    if stand.state == "within":
        return f"That is as sure as the plan asks ({now}): no further print is needed."
    if stand.state == "hopeless":
        return (
            f"With grades this unsure, {plural(left, 'more print')} would narrow it to {later} (now "
            f"{now}): better stop."
            " What differs from print to print, or from day to day?"
        )
    if stand.state == "most":
        return f"All planned prints are made; it is known to {now}."
    return f"Now {now}; {plural(left, 'more print')} would narrow it to some {later}."


def _figure(plan: Plan, threshold: ThresholdTold, scale: Scale) -> list[str]:
    """The planned range as a line, the belief's range on it, and the value of the rule."""
    setting, cells = setting_of(plan), ["-"] * FIGURE

    def at(value: float) -> int:
        low, high = float(scale.low), float(scale.high)
        place = scale.u(Fraction(min(max(value, low), high))), scale.u(scale.low), scale.u(scale.high)
        return round((place[0] - place[1]) / (place[2] - place[1]) * (FIGURE - 1))

    for number in range(at(threshold.low), at(threshold.high) + 1):
        cells[number] = "="
    cells[at(threshold.middle)] = "|"
    cells[at(float(threshold.safe))] = "R"
    return [
        f"  {setting.show(scale.low)} {''.join(cells)} {setting.show(scale.high)}",
        "  (= the range, | its middle, R the value of the rule)",
    ]


def _screen_lines(plan: Plan, screen: ScreenTold) -> list[str]:
    if not screen.effects:
        return [f"{screen.done} of {screen.rows} prints are graded; the ranking needs all of them."]
    lines = [
        "Ranked by how well few factors explain these grades, with or without one interaction of two; not declared",
        "(2 grades lie between good and poor; the weight is the share of such explanations that need it):",
    ]
    vocabulary = load_vocabulary()
    for place, effect in enumerate(screen.effects, 1):
        factor = plan.factors[effect.factor]
        setting = vocabulary.settings[factor.setting]
        better = factor.low if effect.size > 0 else factor.high
        side = f"better at {setting.show(better)}" if effect.size else "no difference seen"
        lines.append(
            f"  {place}. {factor.setting:<28} weight {effect.chance:.2f}; {abs(effect.size):.2f} grades, {side}"
        )
    if screen.error:
        lines.append(
            f"  A factor that does nothing shows some {screen.error:.2f} grades by chance (Lenth's pseudo "
            "standard error)."
        )
    names = [factor.setting for factor in plan.factors]
    first = [item for item in screen.aliases if item.factor == screen.effects[0].factor][:4]
    if first:
        mixed = ", ".join(f"{names[item.pair[0]]} with {names[item.pair[1]]}" for item in first)
        lines.append(f"  What {names[screen.effects[0].factor]} seems to do holds a part of: {mixed} (and more).")
    lines.append("Not told: whether the first ones matter for sure. Pair them: 'profilesmith coupon plan pair'.")
    return lines


def _pair_lines(plan: Plan, result: PairTold) -> list[str]:
    if plan.way == "blind":
        ties = plural(result.ties, "tie")
        counts = f"{result.done} of {result.planned} pairs: A better in {result.a}, B in {result.b}, {ties}."
    else:
        good = f"A good in {result.a} of {result.of_a}, B in {result.b} of {result.of_b}"
        counts = f"{result.done} of {result.planned} prints: {good}."
    if not result.verdict:
        return [
            "No verdict before the last: the number was fixed beforehand.",
            f"{result.done} of {result.planned} are graded.",
        ]
    if result.verdict == "neither":
        end = "these prints cannot tell them apart. That is no proof that they are equal."
    else:
        end = f"{result.verdict} is better."
    return [
        counts,
        f"By chance alone so large a difference would come in {float(result.chance):.1%} of trials: {end}",
    ]


def tell_json(result: CouponResult) -> Mapping[str, Any]:
    """The same as data."""
    verdict = result.told
    return {
        "format": 1,
        "kind": "profilesmith coupon",
        "plan": result.coupon.plan.name,
        "asks": result.coupon.plan.kind,
        "prints": [item._asdict() for item in result.coupon.made],
        "told": _plain(verdict._asdict()),
        "rule": dict(result.rule),
    }


def _plain(value: Any) -> Any:
    if isinstance(value, Fraction):
        return float(value)
    if hasattr(value, "_asdict"):
        return _plain(value._asdict())
    if isinstance(value, dict):
        return {key: _plain(item) for key, item in value.items()}
    return [_plain(item) for item in value] if isinstance(value, (list, tuple)) else value
