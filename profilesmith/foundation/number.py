"""Numbers as exact fractions of the text they were written in, and back.

1000 mm/min is no finite decimal of mm/s, so the exact type is ``Fraction``; every number *written* is a decimal.
"""

from __future__ import annotations

from fractions import Fraction

from profilesmith.foundation.late_pattern import late

# Bounded on purpose: a stranger's "1e999" or a million digits must not become work.
LONGEST_NUMBER = 40
LARGEST = 10**12
_WITH_EXPONENT = late(r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)[eE][+-]?[0-9]{1,2}")


def less(one: Fraction, other: Fraction) -> bool:
    """``one < other``, three times quicker: that operator first asks what kind of number the other is."""
    (top, bottom), (others_top, others_bottom) = one.as_integer_ratio(), other.as_integer_ratio()
    return top * others_bottom < others_top * bottom


def read_number(text: str, decimal: str = ".") -> Fraction | None:
    """The exact value of a decimal number, or None when the text is none (or is out of all bounds)."""
    if len(text) > LONGEST_NUMBER:
        return None
    if decimal != ".":
        if "." in text:
            return None
        text = text.replace(decimal, ".")
    whole, _, part = text.partition(".")
    digits = (whole[1:] if whole[:1] in ("+", "-") else whole) + part
    if digits.isdecimal() and digits.isascii():
        value = Fraction(int(whole + part), 10 ** len(part)) if part else Fraction(int(whole))
    elif _WITH_EXPONENT.fullmatch(text):
        value = Fraction(text)
    else:
        return None
    return value if abs(value.numerator) <= LARGEST * value.denominator else None


def written_decimals(text: str, decimal: str = ".") -> int:
    """How many places stand behind the decimal mark of a number as written."""
    return len(mantissa_of(text).partition(decimal)[2])


def mantissa_of(text: str) -> str:
    """A number as written, without its exponent."""
    return text.partition("e")[0].partition("E")[0]


def decimal_text(value: Fraction, places: int, at_least: int = 0) -> str:
    """``value`` with ``places`` decimals (half away from zero), zeros beyond ``at_least`` dropped."""
    top, bottom = abs(value.numerator) * 10**places, value.denominator
    whole = (top * 2 + bottom) // (bottom * 2)
    digits = str(whole).rjust(places + 1, "0")
    head, tail = (digits[:-places], digits[-places:]) if places else (digits, "")
    tail = tail.rstrip("0").ljust(min(at_least, places), "0")
    text = f"{head}.{tail}" if tail else head
    return f"-{text}" if whole and value.numerator < 0 else text


def plain_text(value: Fraction, most: int = 4) -> str:
    """``value`` for a person: at most ``most`` decimals, no idle zeros."""
    return decimal_text(value, most)
