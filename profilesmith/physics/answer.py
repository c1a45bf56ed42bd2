"""What a function answers when one number would say too much: ``Bracket`` or ``NotValid``; and how it refuses
numbers that describe nothing, such as a negative length: with ValueError and the name of the parameter. See the
room. A function that a curve asks a hundred times asks for names only where something is wrong: that takes as long as
its formula.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import inf

from profilesmith.foundation.named_tuple import NamedTuple


class NotValid(NamedTuple):
    """The formula does not hold here.

    reason: why, as a code; words for people are made elsewhere.
    """

    reason: str


class _Ends(NamedTuple):
    low: float
    high: float


class Bracket(_Ends):
    """The answer lies from ``low`` to ``high``, both included. Raises ValueError when they are the wrong way round."""

    __slots__ = ()

    def __new__(cls, low: float, high: float) -> Bracket:
        if not low <= high:
            raise ValueError(f"a bracket from {low!r} to {high!r} holds nothing")
        return tuple.__new__(cls, (low, high))

    def holds(self, value: float) -> bool:
        return self.low <= value <= self.high

    def over(self, other: Bracket) -> Bracket:
        """This over another, both above zero and unrelated: the widest range that the quotient can have."""
        if not (other.low > 0 and self.low >= 0):
            raise ValueError("only brackets above zero can be divided")
        return Bracket(self.low / other.high, self.high / other.low)


def spanning(brackets: Iterable[Bracket]) -> Bracket:
    """The smallest bracket that holds all of them. Raises ValueError when there are none."""
    lows, highs = zip(*brackets, strict=True)
    return Bracket(min(lows), max(highs))


def require_positive(**values: float) -> None:
    """Every value must be finite and above zero."""
    for name, value in values.items():
        if not 0 < value < inf:
            raise ValueError(f"{name} must be a finite number above zero, not {value!r}")


def require_not_negative(**values: float) -> None:
    """Every value must be finite and not below zero."""
    for name, value in values.items():
        if not 0 <= value < inf:
            raise ValueError(f"{name} must be a finite number, zero or above, not {value!r}")


def require_share(**values: float) -> None:
    """Every value must lie from 0 to 1: a share is 0.15, not 15 %."""
    for name, value in values.items():
        if not 0 <= value <= 1:
            raise ValueError(f"{name} is a share and must lie from 0 to 1, not {value!r}")
