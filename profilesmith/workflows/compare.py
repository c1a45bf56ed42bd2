"""Compare: two texts, through one map or two, setting by setting."""

from __future__ import annotations

import os
from pathlib import Path

from profilesmith.engine.edits_since import where
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, did_you_mean, refuse_if
from profilesmith.ledger import Line
from profilesmith.ledger.file import FORMAT, ComparisonFile
from profilesmith.ledger.line_edit import ValueEdited
from profilesmith.ledger.place import ledger_beside
from profilesmith.ledger.write import patch, values_of_profile
from profilesmith.merge.other_keys import other_keys_edited
from profilesmith.profile.compare_profiles import compare_profiles
from profilesmith.review.build_comparison import WHAT_DIFFERS, comparison_review
from profilesmith.review.findings.in_words import judge
from profilesmith.review.hand_edits import hand_edits
from profilesmith.review.known_words import edited_since, facts_of_ledgers, map_remembered, share_rewritten
from profilesmith.review.reading_notes import reading_notes
from profilesmith.review.review import Review, StandingValues
from profilesmith.review.standing import held_values
from profilesmith.review.wording import key_words, share_words
from profilesmith.translation.document_to_profile import Translation
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.derived_file import derived_file, load_ledger
from profilesmith.workflows.known_facts import known_facts
from profilesmith.workflows.known_map import known_map
from profilesmith.workflows.read import read, read_facts
from profilesmith.workflows.request import Request


def compare(old: Request, new: Request, only: str = "") -> Review:
    """The differences of two profiles, and what follows from them with the facts that ``old`` names. Raises Refused.

    only: an area of the vocabulary ("speeds", "heat") or a group of settings; "" for all. A side that names no map has
    the one that its ledger knows, or the other side's.
    """
    old, new, from_maps = _with_maps(old, new)
    problems: list[Problem] = []
    named, members = read_facts(old.facts, old.library, problems), _members(only, problems)
    refuse_if(problems)
    known = known_facts((old.bases[0], new.bases[0]), named)
    before, after = read(old), read(new)
    every = compare_profiles(before.profile, after.profile)
    differences = [difference for difference in every if difference.setting in members]
    file = ComparisonFile(
        FORMAT,
        "profilesmith comparison",
        values_of_profile(before.profile),
        values_of_profile(after.profile),
        patch(before.profile, after.profile),
        *judge(before.profile, after.profile, known.facts),
    )
    shares = _shares(before, after)
    still = members - {difference.setting for difference in every}
    from_maps += [share_rewritten(name, *both) for name, both in shares.items() if name in still and both[0] != both[1]]
    read_so = [*reading_notes(before), *reading_notes(after)]
    notes = [*from_maps, *facts_of_ledgers(*known[1:]), *_hand_edits(new.bases[0], after), *read_so]
    names = [", ".join(document.name for document in side.documents) for side in (before, after)]
    return comparison_review(
        differences,
        load_vocabulary(),
        WHAT_DIFFERS,
        f"{names[0]} → {names[1]}",
        list(dict.fromkeys(notes)),
        file,
        () if only else _other_keys(before, after),
        _places(after),
        _held(before, after, members),
        shares,
    )


def _shares(before: Translation, after: Translation) -> dict[str, tuple[str, str]]:
    """What settings are written as shares of, in the old and in the new text; "" where it is the value itself."""
    sides = [{name: share_words(entry) for name, entry in side.profile.entries.items()} for side in (before, after)]
    names = dict.fromkeys([*sides[0], *sides[1]])
    shares = {name: (sides[0].get(name, ""), sides[1].get(name, "")) for name in names}
    return {name: both for name, both in shares.items() if any(both)}


def _with_maps(old: Request, new: Request) -> tuple[Request, Request, list[str]]:
    """Both sides with a map, and sentences on maps that ledgers name."""
    notes = []
    if not old.key_map:
        stored = known_map((*old.bases, *new.bases))
        old, notes = old._replace(key_map=stored.path), [map_remembered(*stored)]
    if not new.key_map:
        stored = known_map((*new.bases, *old.bases))
        new, notes = new._replace(key_map=stored.path), [*notes, map_remembered(*stored)]
    return old, new, notes


def _members(only: str, problems: list[Problem]) -> set[str]:
    vocabulary = load_vocabulary()
    names = {name for name, setting in vocabulary.settings.items() if not only or setting.area == only}
    members = names | set(vocabulary.expand(only))
    if not members:
        known = [*vocabulary.areas, *vocabulary.groups]
        hint = did_you_mean(only, known, f"Known: {', '.join(known)}.")
        problems.append(Problem("unknown-group", f"There is no group {only!r}.", Place("--only"), hint))
    return members


def _hand_edits(name: str, after: Translation) -> list[str]:
    """Where NEW has a ledger beside it: what was edited by hand since, and the rule that each edit overrules."""
    if not os.path.isfile(ledger_beside(Path(name))):
        return []
    stored = load_ledger(name)
    since = where(derived_file(name, stored))
    # The map of then may be gone.
    sentences = since.sentences if since else hand_edits(stored.ledger, after.profile, load_vocabulary())
    return edited_since(sentences)


def _places(side: Translation) -> dict[str, Line]:
    return {
        name: Line(entry.origin.file, entry.origin.line, key_words(entry.origin), entry.origin.text)
        for name, entry in side.profile.entries.items()
    }


def _other_keys(before: Translation, after: Translation) -> list[ValueEdited]:
    """What differs in keys that the map does not know; only where both sides are one dialect."""
    return other_keys_edited(before, after) if before.key_map.file == after.key_map.file else []


def _held(before: Translation, after: Translation, members: set[str]) -> StandingValues:
    """Every value of the new side beside the old one's."""
    held = held_values(after.profile, load_vocabulary(), before.profile)
    standing, gone = ([item for item in items if item.setting in members] for items in held)
    return StandingValues(tuple(standing), tuple(gone))  # type: ignore[arg-type]
