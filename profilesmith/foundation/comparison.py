"""``> 0``, ``<= 300 mm``: a comparison as map and recipe files write it. No expressions: one operator, one operand."""

import operator
from collections.abc import Callable, Mapping
from fractions import Fraction

from profilesmith.foundation.named_tuple import NamedTuple

_OPERATORS: Mapping[str, Callable[[Fraction, Fraction], bool]] = {
    ">=": operator.ge,
    "<=": operator.le,
    "!=": operator.ne,
    ">": operator.gt,
    "<": operator.lt,
    "=": operator.eq,
}


class Comparison(NamedTuple):
    """An operator and the text of its operand."""

    sign: str
    operand: str

    def holds(self, left: Fraction, right: Fraction) -> bool:
        return _OPERATORS[self.sign](left, right)

    def __str__(self) -> str:
        return f"{self.sign} {self.operand}"


def read_comparison(text: str) -> Comparison | None:
    """The comparison that a text is, or None when it begins with no operator."""
    text = text.strip()
    for sign in _OPERATORS:
        if text.startswith(sign):
            operand = text[len(sign) :].strip()
            return Comparison(sign, operand) if operand else None
    return None
