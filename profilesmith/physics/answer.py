"""What a function answers when one number would say too much: ``Bracket`` or ``NotValid``. See the room's docstring."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class NotValid:
    """The formula does not hold here.

    reason: why, as a code; words for people are made elsewhere.
    """

    reason: str


@dataclass(frozen=True, slots=True)
class Bracket:
    """The answer lies from ``low`` to ``high``, both included. Raises ValueError when they are the wrong way round."""

    low: float
    high: float

    def __post_init__(self) -> None:
        if not self.low <= self.high:
            raise ValueError(f"a bracket from {self.low!r} to {self.high!r} holds nothing")

    def holds(self, value: float) -> bool:
        return self.low <= value <= self.high

    def over(self, other: Bracket) -> Bracket:
        """This over another, both above zero and unrelated: the widest range that the quotient can have."""
        if not (other.low > 0 and self.low >= 0):
            raise ValueError("only brackets above zero can be divided")
        return Bracket(self.low / other.high, self.high / other.low)


def spanning(brackets: Iterable[Bracket]) -> Bracket:
    """The smallest bracket that holds all of them. Raises ValueError when there are none."""
    held = tuple(brackets)
    return Bracket(min(b.low for b in held), max(b.high for b in held))
