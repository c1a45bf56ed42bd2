"""What could not be taken over as it was when a derivation is made again, in sentences."""

from __future__ import annotations

from collections.abc import Sequence

from profilesmith.foundation.words import listed
from profilesmith.ledger.not_as_then import NotAsThen
from profilesmith.review.fact_changes import change_sentences, unread_facts


def again_notes(now: NotAsThen) -> tuple[str, ...]:
    """Answers that are left out, facts that the files say otherwise, what an old ledger holds rounded."""
    left_out = (
        f"The answer {answer.recipe}.{answer.name} = {answer.said} is left out: no recipe asks for it now."
        for answer in now.answers
    )
    gone = (f"{unread_facts(*item)}; facts are as the ledger has them" for item in now.unread)
    facts = (f"{text[0].upper()}{text[1:]}." for text in (*change_sentences(now.facts), *gone))
    return (*left_out, *facts, *_rounded(now.rounded))


def _rounded(names: Sequence[str]) -> list[str]:
    if not names:
        return []
    return [
        f"The ledger is of format 1, which holds facts and answers rounded as they were shown: {listed(names)}. "
        "Say them again, and they count exactly."
    ]
