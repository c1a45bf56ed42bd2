"""One check against something outside the project, as data, and how it is judged and shown."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from profilesmith.physics.answer import Bracket, NotValid

Numbers = Sequence[float]
Answer = float | Bracket | NotValid

# How an expected value stands apart from our own code.
PUBLISHED, OTHER_CODE, OTHER_LAW, PRACTICE, FROM_MEMORY = "S", "O", "D", "P", "M"
INDEPENDENCE = {
    PUBLISHED: "published",
    OTHER_CODE: "oracle: other code or method",
    OTHER_LAW: "oracle: derived from another law",
    PRACTICE: "common practice, no source",
    FROM_MEMORY: "from memory, not confirmed",
}


@dataclass(frozen=True, slots=True)
class OutsideCheck:
    """laws: the functions that the row guards, by ``file.name``, or a word for data of ours.

    expected: numbers, or a call that works them out now. tolerance: relative, or ``absolute``; 0 is exact.
    """

    name: str
    laws: tuple[str, ...]
    got: Callable[[], Numbers]
    expected: Numbers | Callable[[], Numbers]
    tolerance: float
    source: str
    independence: str
    absolute: bool = False


@dataclass(frozen=True, slots=True)
class Outcome:
    check: OutsideCheck
    got: Numbers
    expected: Numbers

    @property
    def passed(self) -> bool:
        return len(self.got) == len(self.expected) > 0 and all(map(self._near, self.got, self.expected))

    def _near(self, got: float, expected: float) -> bool:
        room = self.check.tolerance * (1 if self.check.absolute else abs(expected))
        return abs(got - expected) <= room  # false for what is no number


def run(check: OutsideCheck) -> Outcome:
    expected = check.expected() if callable(check.expected) else check.expected
    return Outcome(check, tuple(check.got()), tuple(expected))


def point(answer: Answer) -> float:
    """The number of an answer that must be one; of a bracket or a refusal no number, which passes no check."""
    return math.nan if isinstance(answer, Bracket | NotValid) else answer
