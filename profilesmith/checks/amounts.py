"""The numbers of a check: a profile's values as it reckons with them (the first tool's, as a float, a count, a
switch or a word), what a finding says by name, and how people are shown them: few digits, and never two different
numbers that look the same.
"""

import math
from collections.abc import Callable
from fractions import Fraction

from profilesmith.ledger.judgement import ORDER, Amount, Verdict
from profilesmith.physics.answer import Bracket
from profilesmith.profile.profile import Profile


def number(profile: Profile, setting: str) -> float | None:
    """The first tool's number. The division is what ``float`` does with a fraction, after asking what it is."""
    entry = profile.entries.get(setting)
    if entry is None:
        return None
    value = entry.values[0]
    if type(value) is not Fraction:
        return None
    top, bottom = value.as_integer_ratio()
    return top / bottom


def size(profile: Profile, setting: str) -> float | None:
    """A number above zero, or None."""
    value = number(profile, setting)
    return value if value and value > 0 else None


def count(profile: Profile, setting: str) -> int | None:
    """A whole number, zero or above, or None."""
    value = profile.number(setting)
    return value.numerator if value is not None and value.denominator == 1 and value.numerator >= 0 else None


def switch(profile: Profile, setting: str) -> bool | None:
    """On or off; None when not known."""
    values = profile.values(setting)
    return values[0] if values and isinstance(values[0], bool) else None


def choice(profile: Profile, setting: str) -> str:
    """A choice's word; "" when not known."""
    values = profile.values(setting)
    return values[0] if values and isinstance(values[0], str) else ""


DIGITS = 6  # more than any model here carries


def amount(name: str, value: float | None, unit: str = "") -> tuple[Amount, ...]:
    """One number by its name; () where it is not known."""
    if value is None:
        return ()
    shown = _told(value)
    return (Amount(name, shown, shown, unit),)


def between(name: str, ends: Bracket | None, unit: str = "", scale: float = 1.0) -> tuple[Amount, ...]:
    """A bracket by its name, times a scale (100 makes per cent of a share); () where it is not known."""
    return () if ends is None else (Amount(name, ends.low * scale + 0.0, ends.high * scale + 0.0, unit),)


def _told(value: float) -> float:
    return float(f"{value:.{DIGITS}g}") + 0.0  # a nothing without a sign: equal numbers are written alike


def worse(one: Verdict, other: Verdict) -> Verdict:
    """The worse of two verdicts."""
    return min(one, other, key=ORDER.index)


FEW = 2
LEAST_SHARE = 1e-3  # what is less is not shown


def few(value: float, digits: int = FEW) -> str:
    """``value`` with so many significant digits, no idle zeros; whole numbers keep all of theirs (150, not 1.5e2)."""
    if not value:
        return "0"
    places = max(0, digits - 1 - math.floor(math.log10(abs(value))))
    text = f"{value:.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def apart(*values: float) -> list[str]:
    """All of them with as few digits as keep different ones different (4.02 and 4, not 4 and 4)."""
    different = len({*values})
    for digits in range(FEW, 7):
        texts = [few(value, digits) for value in values]
        if len(set(texts)) == different:
            return texts
    return [few(value) for value in values]


def shown(value: float, unit: str, digits: int = FEW) -> str:
    """``3.3 mm³/s``."""
    return f"{few(value, digits)} {unit}".rstrip()


def mm(value: float) -> str:
    """A length to a hundredth: ``1.26 mm``."""
    text = f"{value:.2f}".rstrip("0").rstrip(".") if value >= 0.005 or not value else few(value, 1)
    return f"{text} mm"


def span_mm(low: float, high: float) -> str:
    """``0.1 to 0.3 mm``."""
    return f"{mm(low).removesuffix(' mm')} to {mm(high)}"


def degrees(value: float) -> str:
    """``215 °C``."""
    return f"{value:.1f}".removesuffix(".0") + " °C"


def percent(share: float, digits: int = FEW) -> str:
    """``5.7 %`` of 0.057."""
    return shown(share * 100, "%", digits)


def span(low: float, high: float, unit: str = "") -> str:
    """``1 to 2.3 mm``, rounded outward; one number where both are alike."""
    if few(low, 4) == few(high, 4):
        return shown(low, unit)
    ends = few(_outward(low, math.floor), FEW + 1), few(_outward(high, math.ceil), FEW + 1)
    return f"{ends[0]} to {ends[1]} {unit}".rstrip() if ends[0] != ends[1] else f"{ends[0]} {unit}".rstrip()


def _outward(value: float, rounding: Callable[[float], int]) -> float:
    """``value`` to FEW digits (one more behind a leading 1) in one direction; what is off by a thousandth stays."""
    if not value:
        return 0.0
    exponent = math.floor(math.log10(abs(value)))
    step: float = 10.0 ** (exponent - FEW + (abs(value) >= 2 * 10.0**exponent))
    near = round(value / step)
    return step * (near if abs(value - near * step) < LEAST_SHARE * abs(value) else rounding(value / step))


def at_most(value: float) -> str:
    """A most, rounded upward: ``2.3`` of 2.25."""
    return few(_outward(value, math.ceil), FEW + 1)


def bracket(between: Bracket, unit: str = "", scale: float = 1.0) -> str:
    """The same of a Bracket."""
    return span(between.low * scale, between.high * scale, unit)
