"""Notes of rows in words."""

from __future__ import annotations

import pytest

from profilesmith.ledger.cause import Note
from profilesmith.review.cause_reasons import note_words
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


@pytest.mark.parametrize(
    ("names", "words"),
    [
        (("0700", "1200", "zeros"), "'0700' was written with its leading zeros, which '1200' cannot show"),
        (
            ("+5.", "-7", "plus", "open"),
            "'+5.' was written with its plus sign and the mark behind it, which '-7' cannot show",
        ),
        (("as an older ledger says it",), "as an older ledger says it"),
        ((), ""),
    ],
)
def test_what_a_number_cannot_show_is_worded(names: tuple[str, ...], words: str) -> None:
    setting = load_vocabulary().settings["outer_wall.speed"]
    assert note_words(Note("style", names), setting) == words
