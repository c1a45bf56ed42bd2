"""Review again: a stored ledger beside the texts as they are now, and whether they were edited since."""

from __future__ import annotations

from profilesmith.checks.case import UNKNOWN, Measured
from profilesmith.engine.derived_file import DerivedFile, translation_now
from profilesmith.engine.edits_since import BrokenOff, Since, kept_edits, sentences, since_written
from profilesmith.engine.ledger_doubts import ledger_doubts
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.recipe.tool import chosen_tool
from profilesmith.review.build_review import NO_EDITS, ledger_review
from profilesmith.review.decisions import remembered
from profilesmith.review.findings.in_words import judge
from profilesmith.review.reading_notes import as_it_was, derived_from, since
from profilesmith.review.review import Review
from profilesmith.review.road import road_lines
from profilesmith.review.wording import visible
from profilesmith.translation.start_block import contradictions, left_alone
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


class ReviewedAgain(NamedTuple):
    """edited: sentences on what was changed by hand; empty when every file is as it was written.

    of_hand: whether they tell of edits; a run that broke off, or a ledger that contradicts itself, is none.
    left_out: sentences on what could not be taken from the motion file.
    """

    review: Review
    edited: tuple[str, ...]
    of_hand: bool = False
    left_out: tuple[str, ...] = ()


def review_again(file: DerivedFile, measured: Measured | None = None) -> ReviewedAgain:
    """The review of a derived file as it stands now, and what was edited since.

    measured: what its motion file tells; then the checks are made anew with it.
    """
    stored, now = file.stored, translation_now(file)
    by_hand = since_written(file, now)
    of_hand = bool(by_hand) and not isinstance(by_hand, BrokenOff)
    edited = tuple(map(visible, sentences(by_hand) if by_hand else ledger_doubts(stored, now)))
    subject = derived_from(file.name, (item.name for item in stored.file.files))
    kept = NO_EDITS if isinstance(by_hand, BrokenOff) else kept_edits(file, now)
    notes = [f"{since(text, of_hand)}." for text in edited] or [as_it_was(kept)]
    edits = by_hand.edits if isinstance(by_hand, Since) else NO_EDITS
    judged, ledger = stored.file, stored.ledger
    if edits or measured is not None:  # what is judged is what stands in the file now
        profile = by_hand.profile if isinstance(by_hand, Since) else ledger.derived
        judged = judged._replace(**judge(ledger.base, profile, ledger.facts, measured or UNKNOWN)._asdict())
    if of_hand and now is not None:  # a hand may have edited what a start block repeats, or the block itself
        commands = contradictions(now._replace(profile=ledger.base), now.profile, chosen_tool(ledger.facts))
        judged = judged._replace(literals=left_alone(commands, now))
    read = now.profile if now else None
    review = ledger_review(ledger, load_vocabulary(), subject, judged, notes=notes, edits={**edits, **kept}, now=read)
    review = review._replace(
        from_ledger=bool(edited) and read is None,
        road=road_lines(stored.file.mends),
        texts=tuple(visible(item.name) for item in stored.file.files),
        map_name=visible(stored.file.key_map),
        outputs=tuple(visible(text.name) for text in file.texts),
    )
    marked = {name for name, edit in kept.items() if edit.breaks}  # each of them is a point of its own
    decided = tuple(map(visible, remembered(stored.file.history, marked)))
    return ReviewedAgain(review._replace(edits=decided), edited, of_hand=of_hand)
