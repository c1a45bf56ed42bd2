"""What plans and prints that are asked for say, in words for a terminal. Nothing is worked out here."""

from __future__ import annotations

import os
from pathlib import Path, PurePath

from profilesmith.coupon.as_recipe import print_name
from profilesmith.coupon.designs import aliases, design
from profilesmith.coupon.pairs import least_fisher, least_sign
from profilesmith.coupon.plan import BETTER, Plan
from profilesmith.coupon.tell import ScreenTold, ThresholdTold, Told
from profilesmith.evidence.record import JUDGED
from profilesmith.reports.coupon.results import question, range_line, setting_of
from profilesmith.review.render.command import command
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.coupon.files import Coupon
from profilesmith.workflows.coupon.judge import Graded
from profilesmith.workflows.coupon.label import AboveLabel, above_label, facts_of
from profilesmith.workflows.coupon.next import Next
from profilesmith.workflows.coupon.tell import CouponResult


def plan_lines(plan: Plan, out: str, library: Path | None = None) -> list[str]:
    """A new plan, and what it can tell at best, before anything is printed."""
    lines = [f"wrote {out}", question(plan)]
    if plan.kind == "threshold":
        around = plan.factors[0].around
        lines += [
            f"Begins at the recipe's value {setting_of(plan).show(around)}, and may be far from it."
            if around is not None
            else "The recipes say no value for it: the search begins in the middle of the range.",
            "An even judge needs some 10 to 12 prints for ±10 %, a very sharp one fewer; with a blurry "
            "one half of such coupons"
            " do not get there, and say so.",
        ]
    elif plan.kind == "screen":
        lines += _screen_beforehand(plan)
    else:
        lines += _pair_beforehand(plan)
    lines += map(_caution, above_label(plan, facts_of(plan, Path(out).parent, library)))
    return [*lines, f"Next: {command('coupon next', out)}"]


def _caution(item: AboveLabel) -> str:
    setting = load_vocabulary().settings[item.setting]
    return (
        f"Careful: {item.setting} goes up to {setting.show(item.high)} here; the spool's label says "
        f"{setting.show(item.most)} at most. Above it the drive may slip or grind: stay with the printer, stop at the "
        "first sign, and keep no faster rule than the label's without a reason."
    )


def _screen_beforehand(plan: Plan) -> list[str]:
    rows = design(len(plan.factors), plan.stop.most) or ()
    mixed = aliases(rows, 0.1)
    whole = any(abs(item.share) > 0.99 for item in mixed)
    lines = [
        (
            f"{plan.stop.most} prints, each factor high in half of them, in an order drawn at random. "
            "Print all before you ask."
        )
    ]
    if mixed:
        part = "fully" if whole else "by a third"
        lines.append(f"Interactions of two factors are mixed into the others {part}: 'coupon tell' names them.")
    lines.append(
        "The factors will be ranked, not declared: even 12 prints would find only half of what "
        "matters at 80 % sureness."
    )
    return lines


def _pair_beforehand(plan: Plan) -> list[str]:
    if plan.way == "blind":
        best = least_sign(plan.stop.most)
        return [
            f"{plan.stop.most} blind pairs, a number that is fixed now: no verdict comes before. If one "
            "side wins all of them,"
            f" chance alone would do so in {float(best):.1%} of trials. Ties are told and not counted.",
            "Have somebody else lay out left and right, or do not look into the files.",
        ]
    each = plan.stop.most // 2
    return [
        f"{each} prints of each, a number that is fixed now: no verdict comes before. If all of one "
        "are good and none of the"
        f" other, chance alone would do so in {float(least_fisher(each)):.1%} of trials; with fewer "
        "than four each it cannot be told."
    ]


def next_lines(result: Next, library: str | os.PathLike[str] | None) -> list[str]:
    """The prints that are open, and how to derive and grade them."""
    coupon = result.coupon
    plan, name = coupon.plan, str(coupon.path)
    if not result.prints:
        return [_why_none(result, name)]
    lines = list(map(_caution, result.careful))
    for item, sides in zip(result.prints, result.recipes, strict=True):
        about = "" if item.other else f": {', '.join(f'{setting} {text}' for setting, text in item.values.items())}"
        lines.append(f"Print {item.number}{about}")
        for words, side in zip(sides, ("left", "right") if item.other else ("",), strict=True):
            if result.order is None:
                lines.append(f"  {_derive(plan, words, print_name(plan, item.number, side), library)}")
    if result.order is not None:
        lines.append(f"  {command('batch', result.order, library=library)}")
    elif coupon.path.parent != type(coupon.path)("."):
        lines.append(f"  (file names as seen from {coupon.path.parent})")
    grades = "|".join(BETTER) if result.prints[0].other else "good|fair|poor"
    number = f" --print {result.prints[0].number}" if len(result.prints) > 1 else ""
    return [*lines, f"Then say how it came out: profilesmith coupon judge {name} {grades}{number}"]


def _derive(plan: Plan, recipes: tuple[str, ...], stem: str, library: str | os.PathLike[str] | None) -> str:
    words = " ".join(f"--recipe {word}" for word in recipes)
    words += f" --start-block {plan.start_block}" if plan.start_block else ""
    return f"profilesmith derive BASE --keymap K {words} -o {stem}.settings{f' --library {library}' if library else ''}"


def _why_none(result: Next, name: str) -> str:
    tell = command("coupon tell", name)
    if result.state == "within":
        return f"No further print is needed: it is known as well as the plan asks. See {tell}."
    if result.state == "hopeless":
        return (
            "With grades this unsure the prints that are left would not get there: better stop, and "
            "look for what differs from"
            f" print to print. See {tell}; --anyway asks for one more."
        )
    return f"All planned prints are made. See {tell}."


def judged_lines(graded: Graded, result: CouponResult) -> list[str]:
    """What was written, what is known now, and how to tell the club."""
    coupon, item = graded.coupon, graded.print
    lines = [f"print {item.number}: {item.grade}", *_short(coupon, result.told)]
    if result.ask_next:
        lines.append(f"Next: {command('coupon next', coupon.path)}")
    else:
        lines.append(f"Now: {command('coupon tell', coupon.path)}")
    if coupon.plan.judged in JUDGED and item.grade in ("good", "fair", "poor"):
        outcome = {"good": "worked", "fair": "partly", "poor": "failed"}[item.grade]
        stem = derived_name(coupon.plan, item.number)
        lines.append(
            "For the club's library: profilesmith evidence add"
            f" --derived {stem} --outcome {outcome} --{coupon.plan.judged} {item.grade} --library LIBRARY"
        )
    return lines


def derived_name(plan: Plan, number: int) -> str:
    """What a print's derived file is called: in a folder of its own where the coupon's order made it."""
    stem = print_name(plan, number)
    return f"{stem}/{PurePath(plan.bases[0]).name}" if plan.bases and plan.key_map else f"{stem}.settings"


def _short(coupon: Coupon, result: Told) -> list[str]:
    if isinstance(result, ThresholdTold):
        return [range_line(coupon.plan, result)]
    if isinstance(result, ScreenTold):
        return [f"{result.done} of {result.rows} prints are graded."]
    return [f"{result.done} of {result.planned} are graded; no verdict before the last."] if not result.verdict else []
