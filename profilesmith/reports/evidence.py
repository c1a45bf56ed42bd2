"""Prints that somebody judged, in words: what was recorded or withdrawn, what is known by recipe, machine or spool."""

from __future__ import annotations

import json

from profilesmith.evidence.groups import BY
from profilesmith.evidence.record import record_json
from profilesmith.evidence.told import added_lines, tally_json, tally_lines
from profilesmith.evidence.told_by import by_groups
from profilesmith.foundation.words import listed
from profilesmith.review.wording import visible
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.evidence import AllAdded
from profilesmith.workflows.evidence_list import ListedEvidence
from profilesmith.workflows.evidence_withdraw import Withdrawn
from profilesmith.workflows.printed import PRINTED


def show_added(done: AllAdded, form: str) -> str:
    """What was recorded: for people with the sum so far, or as JSON, one record after the other."""
    if form == "json":
        return json.dumps([record_json(item.record) for item in done.added], ensure_ascii=False, indent=2) + "\n"
    lines = added_lines([item.record for item in done.added], [item.tally for item in done.added], load_vocabulary())
    return "\n".join(visible(line) for line in lines) + "\n"


def added_notes(done: AllAdded, public: bool) -> list[str]:
    """Where it was recorded, and what somebody should know of it. public: whether words or a name were given."""
    lines = [f"recorded in {item.path}" for item in done.added]
    lines += done.left_out
    if done.edits:
        way = "as it was written, before" if done.values == PRINTED else "as it is now"
        lines += [f"Edited since it was derived, and recorded {way}:", *(f"  - {text}." for text in done.edits)]
    if any(item.again for item in done.added):
        lines.append(
            "An equal record of that day was there already: this one counts as a second print. Take "
            "its line out if it is none."
        )
    return [*lines, "The note and the name are public to everybody who has the library."] if public else lines


def evidence_text(listing: ListedEvidence, form: str) -> str:
    """All records with their sums, or what prints of all recipes are summed up by; "" for none beside mistakes."""
    if listing.by in BY:
        text = by_groups(listing.tallies, listing.by, form == "json")
        return "\n".join(map(visible, text.split("\n"))) if form != "json" else text
    vocabulary = load_vocabulary()
    if form == "json":
        entries = [tally_json(item, vocabulary) for item in listing.tallies]
        return json.dumps(entries, ensure_ascii=False, indent=2) + "\n"
    known = [item for item in listing.tallies if listing.name or item.records or item.others or item.withdrawn]
    text = "\n\n".join("\n".join(visible(line) for line in tally_lines(item, vocabulary)) for item in known)
    return f"{text}\n" if known else "" if listing.problems else "No evidence is recorded yet.\n"


def withdrawn_sentence(withdrawn: Withdrawn) -> str:
    recipes = listed(f"{name} ({path.name})" for name, path in withdrawn.recipes)
    return visible(f"The print of {withdrawn.date} counts no more for {recipes}. Its records stay, with the reason.")
