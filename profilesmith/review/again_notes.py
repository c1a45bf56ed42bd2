"""What could not be taken over as it was when a derivation is made again, in sentences."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from profilesmith.facts.fact_change import FactChange
from profilesmith.foundation.words import listed
from profilesmith.review.fact_changes import change_sentences, unread_facts


def facts_again(changes: Sequence[FactChange], unread: Iterable[tuple[str, str]]) -> list[str]:
    """What the facts files say otherwise now. unread: names of files with why they cannot be read."""
    gone = (f"{unread_facts(*item)}; facts are as the ledger has them" for item in unread)
    return [f"{text[0].upper()}{text[1:]}." for text in (*change_sentences(changes), *gone)]


def rounded_then(names: Sequence[str]) -> list[str]:
    """Facts and answers that are only as exact as an old ledger showed them."""
    if not names:
        return []
    return [
        f"The ledger is of format 1, which holds facts and answers rounded as they were shown: {listed(names)}. "
        "Say them again, and they count exactly."
    ]
