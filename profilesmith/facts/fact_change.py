"""A fact that differs from what it was."""

from __future__ import annotations

from profilesmith.facts.facts import FactValue
from profilesmith.foundation.named_tuple import NamedTuple


class FactChange(NamedTuple):
    """was, now: None where the fact is not said. file: the word of the facts file that says it; "" for one that
    went.
    """

    name: str
    was: FactValue | None
    now: FactValue | None
    file: str
