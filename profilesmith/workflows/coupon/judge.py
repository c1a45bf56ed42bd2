"""A grade for a print of a coupon."""

from __future__ import annotations

from profilesmith.coupon.judge_model import GRADES
from profilesmith.coupon.log import CouponPrint, LogLine
from profilesmith.coupon.plan import BETTER, Plan
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, did_you_mean
from profilesmith.foundation.words import listed
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Unreadable, read_value
from profilesmith.workflows.coupon.files import Coupon, add_lines, day, mark, read_coupon


class Graded(NamedTuple):
    """coupon: with the new grade in it."""

    coupon: Coupon
    print: CouponPrint


def judge_print(
    name: str, grade: str, number: int | None = None, value: str = "", note: str = "", date: str = ""
) -> Graded:
    """Write a grade into the log. number: which print; the open one when there is one. Raises Refused.

    value: of a threshold, what was printed, where that is not what was asked for.
    """
    coupon = read_coupon(name)
    words = BETTER if (coupon.plan.kind, coupon.plan.way) == ("pair", "blind") else GRADES
    if grade not in words:
        hint = did_you_mean(grade, words, f"Write {listed(words, 'or')}.")
        raise Refused([Problem("grade", f"{grade!r} is no grade of this coupon.", Place(name), hint)])
    if len(note) > 400 or not note.isprintable():
        raise Refused([Problem("note", "The note is too long, or holds what cannot be seen.", Place("--note"))])
    item = _print(coupon, number)
    line = LogLine(
        "graded", coupon.plan.name, item.number, day(date), mark(), _printed(coupon.plan, value), {}, grade, note
    )
    add_lines(coupon, [line])
    again = read_coupon(name)
    return Graded(again, next(known for known in again.made if known.number == item.number))


def _print(coupon: Coupon, number: int | None) -> CouponPrint:
    """The print that is meant."""
    known = {item.number: item for item in coupon.made}
    if number is not None and number in known:
        return known[number]
    place = Place(str(coupon.path))
    if number is not None:
        hint = f"Asked for so far: {listed(map(str, known)) or 'none'}."
        raise Refused([Problem("no-print", f"Print {number} was not asked for.", place, hint)])
    if len(coupon.open) == 1:
        return coupon.open[0]
    if not coupon.open:
        raise Refused([Problem("no-print", "No print is open.", place, "Ask for one with 'profilesmith coupon next'.")])
    numbers = listed((str(item.number) for item in coupon.open), "or")
    raise Refused([Problem("which-print", "Several prints are open.", place, f"Say which: --print {numbers}.")])


def _printed(plan: Plan, text: str) -> dict[str, str]:
    if not text:
        return {}
    setting = load_vocabulary().settings[plan.factors[0].setting]
    value = read_value(setting, text)
    reason = value.reason if isinstance(value, Unreadable) else setting.implausible(value)
    if reason or plan.kind != "threshold" or isinstance(value, Unreadable):
        message = f"{setting.id}: {reason}." if reason else "Only a print of a threshold has a value of its own."
        raise Refused([Problem("setting-value", message, Place("--value"), "Write it with its unit.")])
    return {setting.id: setting.written(value)}
