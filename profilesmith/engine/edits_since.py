"""Where a derived file was edited since it was written, in words, and which rules those edits break."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from profilesmith.engine.derived_file import DerivedFile, answers_then, facts_then, translation_now
from profilesmith.engine.read import answered_facts, read_answers
from profilesmith.foundation.digest import sha256_hex
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.problem import Problem
from profilesmith.ledger import BrokenRules
from profilesmith.ledger.packed import unpack
from profilesmith.ledger.read import Stored
from profilesmith.merge.line_edits import line_edits
from profilesmith.merge.overruled import broken_rules
from profilesmith.merge.spelling import beside_changed
from profilesmith.merge.text_lines import TextLine
from profilesmith.profile.profile import Profile
from profilesmith.recipe.recipe import Recipe
from profilesmith.review import reading_notes
from profilesmith.review.edited_now import EditedNow, edited_now
from profilesmith.review.hand_edits import changed_settings, hand_edits
from profilesmith.review.line_edit_words import line_edit_sentence
from profilesmith.review.reading_notes import unmapped_lines
from profilesmith.review.wording import visible
from profilesmith.text.read_document import read_document
from profilesmith.translation.document_to_profile import Translation, translate
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


class BrokenOff(NamedTuple):
    """A run that wrote here did not end. left: a file that it left."""

    left: str


class Since(NamedTuple):
    """Sentences on what differs, and the settings that do, as data. profile: as the file has it now."""

    sentences: list[str]
    edits: Mapping[str, EditedNow]
    profile: Profile


def edits_since(file: DerivedFile) -> list[str]:
    """Sentences on edits of the derived texts since the ledger was written."""
    return sentences(since_written(file))


def sentences(edited: list[str] | Since | BrokenOff) -> list[str]:
    """What was found, in words."""
    if isinstance(edited, BrokenOff):
        return [reading_notes.broken_off(edited.left)]
    return edited if isinstance(edited, list) else edited.sentences


def since_written(file: DerivedFile, now: Translation | None = None) -> list[str] | Since | BrokenOff:
    """What was edited; sentences alone where nobody can say where, and none where nothing was. now: as it reads,
    if known.
    """
    changed = [text if text.there else text._replace(name=reading_notes.gone(text.name)) for text in file.changed()]
    if not changed:
        return []
    if file.left:
        return BrokenOff(file.left)
    since = where(file, now)
    if since is None:
        return [reading_notes.somewhere(text.name) if text.there else text.name for text in changed]
    if not since.sentences:
        return [reading_notes.outside_the_map(text.name) for text in changed]
    return since


def where(file: DerivedFile, now: Translation | None = None) -> Since | None:
    """What differs; None when the texts or their key map cannot be read. now: as they read, if that is known."""
    now = now or translation_now(file)
    if now is None:
        return None
    stored = file.stored
    changed = changed_settings(stored.ledger, now.profile)
    broken = _broken(stored, file.recipes, now.profile, changed)
    then = _as_written(stored, now)
    followers = _followers(then, now) if then else frozenset()
    settings = hand_edits(stored.ledger, now.profile, load_vocabulary(), broken, followers)
    lines = _lines(then, now, changed) if then else _unmapped(stored, now)
    edits = edited_now(stored.ledger, now.profile, broken, followers)
    return Since([*settings, *map(visible, lines)], edits, now.profile)


def kept_edits(file: DerivedFile, now: Translation | None) -> Mapping[str, EditedNow]:
    """The settings that a hand edited before the texts were derived again or mended, and that stand in them still.

    Their ``made`` is the recipes' own value. Empty where the ledger holds no text without them, or nothing can be read.
    """
    stored = file.stored
    if now is None or not stored.file.written:
        return {}
    made, written = _read_as(_copies(stored.file.made), now), _as_written(stored, now)
    if made is None or written is None:
        return {}
    alone = stored.ledger._replace(derived=made.profile)
    carried = {*changed_settings(alone, written.profile)} & {*changed_settings(alone, now.profile)}
    broken = _broken(stored, file.recipes, now.profile, sorted(carried))
    edits = edited_now(alone, now.profile, broken, _followers(made, now))
    return {name: edit for name, edit in edits.items() if name in carried}


def _as_written(stored: Stored, now: Translation) -> Translation | None:
    """The texts as they were written; None where the ledger has no copy of them."""
    texts = _copies(stored.file.written or stored.file.made)
    hashes = [item.sha256 for item in stored.file.outputs]
    return _read_as(texts, now) if [sha256_hex(raw) for raw in texts] == hashes else None


def _copies(words: Sequence[str]) -> list[bytes]:
    """The texts that a ledger has copies of."""
    return [raw for raw in map(unpack, words) if raw is not None]


def _read_as(texts: Sequence[bytes], now: Translation) -> Translation | None:
    """Older texts of the same files, read as those are now; None where some are missing."""
    if len(texts) != len(now.documents):
        return None
    habits = now.key_map.habits
    documents = tuple(
        read_document(raw, item.name, habits, item.delimiter) for raw, item in zip(texts, now.documents, strict=True)
    )
    return translate(documents, now.key_map, load_vocabulary())


def _followers(then: Translation, now: Translation) -> frozenset[str]:
    """What is written as it was, relative to something else: if it moved, nobody edited it."""
    entries = then.profile.entries
    return frozenset(
        name
        for name, entry in now.profile.entries.items()
        if entry.relative_to and name in entries and entries[name].origin.text == entry.origin.text
    )


def _lines(then: Translation, now: Translation, changed: Sequence[str]) -> Iterator[str]:
    """What no setting's sentence names."""
    keys = {
        (spot.lines[0].assignment.section, spot.lines[0].assignment.key)
        for side in (then, now)
        for spot in side.spots.values()
    }
    named = [name for name in changed if not beside_changed(then, now, name)]
    for number, (old, mine) in enumerate(zip(then.documents, now.documents, strict=True)):
        spoken_of = [
            {
                held.assignment.line
                for name in named
                if name in side.spots
                for held in side.spots[name].lines
                if held.document == number
            }
            for side in (then, now)
        ]

        def is_mapped(line: TextLine) -> bool:
            return (line.section, line.name) in keys

        was_told, is_told = ((lambda line, at=numbers: line.number in at) for numbers in spoken_of)
        yield from map(line_edit_sentence, line_edits(old, mine, is_mapped, was_told, is_told))


def _unmapped(stored: Stored, now: Translation) -> Iterator[str]:
    """For ledgers without the text: the keys that the map does not know, each held against its namesakes in their
    order.
    """
    before: dict[str, list[str]] = {}
    for line in stored.file.unmapped:
        before.setdefault(line.key, []).append(line.text)
    for line in unmapped_lines(now):
        texts = before.get(line.key)
        if not texts:
            yield reading_notes.line_since(line, None)
        elif (text := texts.pop(0)) != line.text:
            yield reading_notes.line_since(line, text)
    yield from (reading_notes.taken_out(key, text) for key, texts in before.items() for text in texts)


def _broken(
    stored: Stored, recipes: Sequence[Recipe] | None, profile: Profile, changed: Sequence[str]
) -> BrokenRules | None:
    """The rules on the changed settings that the profile breaks; None where the recipes of then cannot be read
    any more.
    """
    used = [(use.name, use.version) for use in stored.ledger.recipes]
    if recipes is None or [(recipe.name, recipe.version) for recipe in recipes] != used:
        return None
    problems: list[Problem] = []
    texts, _ = answers_then(stored, recipes)
    facts = answered_facts(texts, facts_then(stored), problems)
    answers = read_answers(texts, recipes, problems)
    if problems:
        return None
    return broken_rules(changed, stored.ledger, profile, recipes, facts, answers, load_vocabulary())
