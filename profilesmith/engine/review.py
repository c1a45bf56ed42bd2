"""Review again: a stored ledger and the texts as they are now, and whether a hand edited them since."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from typing import NamedTuple

from profilesmith.engine.edits_since import by_own_recipes, where
from profilesmith.engine.read import translation_of
from profilesmith.engine.source import Source
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.ledger.read import LARGEST_LEDGER, Stored, read_ledger
from profilesmith.review.build_review import ledger_review
from profilesmith.review.decisions import remembered
from profilesmith.review.review import Review
from profilesmith.review.road import road_lines
from profilesmith.review.wording import visible
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


class Again(NamedTuple):
    """edited: sentences on what was changed by hand; empty when every text is as it was written.

    left_out: sentences on what could not be taken from the motion file.
    """

    review: Review
    edited: tuple[str, ...]
    left_out: tuple[str, ...] = ()


def review(ledger: Source, texts: Sequence[Source], key_map: Source | None = None) -> Again:
    """What was derived then, and what a hand changed of the texts since. key_map: theirs, to say where. Raises Refused."""
    stored = stored_in(ledger)
    edited = tuple(edits(stored, texts, key_map))
    names, told = ", ".join(text.name for text in texts), [f"Edited since: {text}" for text in edited]
    return Again(shown(stored, names, told), edited)


def stored_in(ledger: Source) -> Stored:
    """The ledger in some bytes. Raises Refused."""
    try:
        text = ledger.raw[: LARGEST_LEDGER + 1].decode("utf-8")
    except UnicodeDecodeError as error:
        hint = "Derive again to get a new ledger."
        raise Refused([Problem("not-utf8", "The ledger is not UTF-8 text.", Place(ledger.name), hint)]) from error
    found = read_ledger(text, ledger.name, load_vocabulary())
    if isinstance(found, Problem):
        raise Refused([found])
    return found


def edits(stored: Stored, texts: Sequence[Source], key_map: Source | None) -> list[str]:
    """Sentences on what differs from the texts as they were written. Raises Refused for texts of another ledger."""
    outputs = stored.file.outputs
    hint = "Choose the ledger that was written together with the text."
    message = f"The ledger is of {len(outputs)} texts, and {len(texts)} are here."
    refuse_if([Problem("other-ledger", message, hint=hint)] if len(texts) != len(outputs) else [])
    pairs = zip(texts, outputs, strict=True)
    changed = [text.name for text, item in pairs if hashlib.sha256(text.raw).hexdigest() != item.sha256]
    if not changed:
        return []
    if key_map is None:
        return [f"{visible(name)}; where is not known without its key map" for name in changed]
    found = where(stored, translation_of(texts, key_map), by_own_recipes(stored))
    return found or [f"{visible(name)}, outside of all that the map knows" for name in changed]


def shown(stored: Stored, name: str, told: Sequence[str]) -> Review:
    """The stored ledger as a review. told: what is to be said of the texts as they are now."""
    subject = f"{name}, derived from {', '.join(item.name for item in stored.file.files)}"
    notes = [f"{text}." for text in told] or ["The derived file is as it was written."]
    made = ledger_review(stored.ledger, load_vocabulary(), subject, stored.file, notes=notes)
    return made._replace(road=road_lines(stored.file.mends), edits=tuple(map(visible, remembered(stored.file.history))))
