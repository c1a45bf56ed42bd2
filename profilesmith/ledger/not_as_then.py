"""What is not as it was when a stored derivation is made again, as data; ``review.again_notes`` words it."""

from __future__ import annotations

from profilesmith.facts.fact_change import FactChange
from profilesmith.foundation.named_tuple import NamedTuple


class AnswerLeftOut(NamedTuple):
    """An answer of then, with the text that said it, for which no recipe asks now."""

    recipe: str
    name: str
    said: str


class NotAsThen(NamedTuple):
    """facts: that differ now. unread: names of facts files with why they cannot be read.

    rounded: facts and answers that are only as exact as a ledger of format 1 showed them.
    """

    answers: tuple[AnswerLeftOut, ...] = ()
    facts: tuple[FactChange, ...] = ()
    unread: tuple[tuple[str, str], ...] = ()
    rounded: tuple[str, ...] = ()
