"""How one number is written, and another number in the same way: zeros before it, its sign, its exponent, its groups.

Comes in: the number's own text, without its unit. Knows digits, no meanings.
"""

import re
from fractions import Fraction

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.number import decimal_text, mantissa_of, written_decimals

FINEST = 12  # decimals: more than any text needs
LAST = 20  # decimals that are written at most: a grid may be made six decimals finer than FINEST
THOUSANDS = (",", ".", " ", "'", "_", "\u2019", "\u00a0", "\u202f")
"""What may divide the digits of a large number into groups of three."""


class Style(NamedTuple):
    """What a text shows of how it writes numbers. grouped: None for a number too small to show it."""

    decimals: int
    plus: bool
    zeros: int  # digits before the mark, where zeros fill them up
    bare: bool  # ".5"
    open: bool  # "5."
    exponent: str
    grouped: bool | None

    @property
    def is_plain(self) -> bool:
        """Whether it has nothing that another number cannot show."""
        return self.grouped is not False and not any(self[1:6])


# Of a style, what a number may be unable to show.
_SHOWN = ("plus", "zeros", "bare", "open", "exponent")


def ungrouped(text: str, thousands: str) -> str:
    """A text without what divides its leading number into groups of three; as it is where that is none."""
    if not thousands or thousands not in text:
        return text
    mark = re.escape(thousands)
    groups = re.match(rf"[+-]?[0-9]{{1,3}}(?:{mark}[0-9]{{3}})+(?![0-9])(?!{mark}[0-9])", text)
    return text if groups is None else groups.group().replace(thousands, "") + text[groups.end() :]


def style_of(text: str, decimal: str, thousands: str = "") -> Style:
    """The style of a number as written."""
    whole, mark, part = text.partition(decimal)
    usual = text.isascii() and whole.isdigit() and (part.isdigit() or not mark) and (whole[0] != "0" or whole == "0")
    if usual and not (thousands and (thousands in text or len(whole) > 3)):
        return Style(min(len(part), FINEST), False, 0, False, False, "", None)
    plain = ungrouped(text, thousands)
    mantissa = mantissa_of(plain)
    unsigned = mantissa[mantissa[:1] in ("+", "-") :]
    digits = unsigned[: len(unsigned) - len(unsigned.lstrip("0123456789"))]
    return Style(
        decimals=min(written_decimals(plain, decimal), FINEST),
        plus=mantissa.startswith("+"),
        zeros=len(digits) if len(digits) > 1 and digits.startswith("0") else 0,
        bare=not digits,
        open=mantissa.endswith(decimal),
        exponent=plain[len(mantissa) :],
        grouped=(plain != text) if thousands and len(digits) > 3 else None,
    )


PLAIN = style_of("0", ".")
"""Where the text has no number yet."""


def number_text(number: Fraction, habit: int, decimal: str) -> str:
    """A number with as many decimals as the text's habit, or as many more as it needs."""
    habit, bottom = min(habit, FINEST), number.denominator
    places = habit
    if 10**habit % bottom:
        places = next((places for places in range(habit + 1, LAST) if 10**places % bottom == 0), FINEST)
    return decimal_text(number, places, at_least=habit).replace(".", decimal)


def spell(number: Fraction, style: Style, decimal: str, thousands: str = "") -> str:
    """A number in a style, as far as the number can show it."""
    if style.is_plain and not thousands:
        return number_text(number, style.decimals, decimal)  # as mostly
    power = Fraction(10) ** int(style.exponent[1:] or 0) if style.exponent else 1
    held = not style.exponent or (number / power * 10 ** (LAST - 1)).denominator == 1
    text = number_text(number / power if held and style.exponent else number, style.decimals, ".")
    sign, whole = ("-", text[1:]) if text.startswith("-") else ("+" if style.plus else "", text)
    digits, _, tail = whole.partition(".")
    digits = "" if style.bare and digits == "0" and tail else digits.rjust(style.zeros, "0")
    if thousands and style.grouped is not False:
        digits = f"{int(digits or 0):,}".replace(",", thousands) if len(digits) > 3 else digits
    mark = decimal if tail or style.open else ""
    return f"{sign}{digits}{mark}{tail}{style.exponent if held else ''}"


def style_lost(old: str, new: str, decimal: str, thousands: str = "") -> tuple[str, ...]:
    """What of an old number's style a new one cannot show, so that setting it back spells it otherwise.

    Both numbers and the codes of what is lost, ``ungrouped`` among them; () for nothing.
    """
    before = style_of(old, decimal, thousands)
    if before.is_plain:
        return ()
    after = style_of(new, decimal, thousands)
    lost = [name for name in _SHOWN if getattr(before, name) and getattr(before, name) != getattr(after, name)]
    if before.grouped is False and after.grouped is None:  # a small number of a text that groups large ones
        lost.append("ungrouped")
    return (old, new, *lost) if lost else ()
