"""Where a derived text was edited since it was written, in words, and which rules those edits break."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator, Sequence

from profilesmith.engine.read import answered_facts, read_answers
from profilesmith.engine.text_notes import unmapped_lines
from profilesmith.foundation.problem import Problem
from profilesmith.ledger.packed import unpack
from profilesmith.ledger.read import Stored
from profilesmith.merge.line_edits import line_edits
from profilesmith.merge.overruled import Rules, broken_rules
from profilesmith.merge.spelling import beside_changed
from profilesmith.merge.text_lines import TextLine
from profilesmith.profile.profile import Profile
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.recipe.recipe import Recipe
from profilesmith.review.hand_edits import changed_settings, hand_edits
from profilesmith.review.wording import visible
from profilesmith.text.read_document import read_document
from profilesmith.translation.document_to_profile import Translation, translate
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

Broken = Callable[[Profile, Sequence[str]], Rules | None]
"""The rules on some settings that a profile breaks; None where the recipes of then cannot be read any more."""


def where(stored: Stored, now: Translation, broken: Broken) -> list[str]:
    """Sentences on what differs. now: the texts as they are, read with their map."""
    changed = changed_settings(stored.ledger, now.profile)
    then = _as_written(stored, now)
    followers = _followers(then, now) if then else frozenset()
    rules = broken(now.profile, changed)
    settings = hand_edits(stored.ledger, now.profile, load_vocabulary(), rules, followers)
    lines = _lines(then, now, changed) if then else _unmapped(stored, now)
    return [*settings, *map(visible, lines)]


def by_own_recipes(stored: Stored) -> Broken:
    """The rules of the recipes as the ledger itself holds them, with what was answered then."""

    def broken(profile: Profile, changed: Sequence[str]) -> Rules | None:
        recipes = [recipe for use in stored.ledger.recipes if (recipe := _recipe_in(use.text, use.name))]
        if len(recipes) != len(stored.ledger.recipes):
            return None
        said = {
            f"{use.name}.{name}": answer.said
            for use in stored.ledger.recipes
            for name, answer in use.answers.items()
            if answer.origin == "answer"
        }
        problems: list[Problem] = []
        answers = read_answers(said, recipes, problems)
        facts = answered_facts({}, stored.ledger.facts, problems)
        return (
            None
            if problems
            else broken_rules(changed, stored.ledger, profile, recipes, facts, answers, load_vocabulary())
        )

    return broken


def _recipe_in(packed: str, name: str) -> Recipe | None:
    raw = unpack(packed)
    return load_recipe(raw, name, load_vocabulary())[0] if raw else None


def _as_written(stored: Stored, now: Translation) -> Translation | None:
    """The texts as they were written; None where the ledger has no copy of them."""
    copies = [unpack(word) for word in stored.file.written or stored.file.made]
    hashes = [item.sha256 for item in stored.file.outputs]
    texts = [raw for raw in copies if raw is not None]
    if [hashlib.sha256(raw).hexdigest() for raw in texts] != hashes or len(texts) != len(now.documents):
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
        told = [
            {
                found.assignment.line
                for name in named
                if name in side.spots
                for found in side.spots[name].lines
                if found.document == number
            }
            for side in (then, now)
        ]

        def is_mapped(line: TextLine) -> bool:
            return (line.section, line.name) in keys

        was_told, is_told = ((lambda line, at=numbers: line.number in at) for numbers in told)
        yield from line_edits(old, mine, is_mapped, was_told, is_told)


def _unmapped(stored: Stored, now: Translation) -> Iterator[str]:
    """For ledgers without the text: the keys that the map does not know, each held against its namesakes in their order."""
    before: dict[str, list[str]] = {}
    for line in stored.file.unmapped:
        before.setdefault(line.key, []).append(line.text)
    for line in unmapped_lines(now):
        texts = before.get(line.key)
        if not texts:
            yield f"{line.key} = {line.text} was put in ({line.file}:{line.line})"
        elif (text := texts.pop(0)) != line.text:
            yield f"{line.key} {text} → {line.text} ({line.file}:{line.line})"
    yield from (f"{key} = {text} was taken out" for key, texts in before.items() for text in texts)
