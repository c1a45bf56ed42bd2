"""Which derived profiles are behind their base or their recipe: by hashes and versions, nothing is derived.

A derived file that was edited since is read through its map, too: what cannot be read cannot be re-derived.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from pathlib import Path

from profilesmith.engine.derived_file import translation_now
from profilesmith.engine.ledger_doubts import ledger_doubts
from profilesmith.foundation.problem import Problem, Refused
from profilesmith.ledger.ledger import RecipeUse
from profilesmith.ledger.packed import unpack
from profilesmith.ledger.read import Stored
from profilesmith.library.find import find
from profilesmith.library.open_files import open_recipe
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.recipe.recipe import Recipe
from profilesmith.review.reading_notes import broken_off
from profilesmith.revision.recipe_changes import RecipeChanges, recipe_changes
from profilesmith.translation.document_to_profile import translate
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.derived_file import derived_file, left_beside, load_ledger
from profilesmith.workflows.facts_now import facts_now
from profilesmith.workflows.read import read_documents, read_key_map, sha256_of
from profilesmith.workflows.rederive.age import STALE, UNKNOWN, Age, AgeReason
from profilesmith.workflows.rederive.onto import onto_of
from profilesmith.workflows.rederive.version import newer
from profilesmith.workflows.request import word_at
from profilesmith.workflows.request_again import (
    base_words,
    derived_paths,
    key_map_word,
    recipe_words,
    stored_map,
)

MOST_TOLD = 3  # problems of one file


class _Seen:
    """Hashes and versions that were looked up already: forty profiles mostly share a base and a recipe."""

    def __init__(self) -> None:
        self.hashes: dict[Path, str] = {}
        self.recipes: dict[tuple[str, Path | None], tuple[Recipe | None, str]] = {}
        self.compared: dict[tuple[str, str], RecipeChanges | None] = {}

    def sha256(self, path: Path) -> str:
        """A file's hash; "" when it cannot be read."""
        if path not in self.hashes:
            self.hashes[path] = sha256_of(path)
        return self.hashes[path]

    def recipe(self, word: str, library: Path | None) -> tuple[Recipe | None, str]:
        """A recipe as it is now and the hash of its file; None and "" when it cannot be read."""
        key = (word, library)
        if key not in self.recipes:
            path, _ = find(word, "recipe", library)
            recipe = open_recipe(path)[0] if path else None
            self.recipes[key] = (recipe, self.sha256(path)) if recipe and path else (None, "")
        return self.recipes[key]

    def changes(self, packed: object, new: Recipe) -> RecipeChanges | None:
        """What changed since the text that a ledger keeps; None where it keeps none, as older ones do."""
        key = (str(packed), new.file)
        if key not in self.compared:
            raw = unpack(packed)
            old = load_recipe(raw, new.file, load_vocabulary())[0] if raw else None
            self.compared[key] = recipe_changes(old, new) if old is not None else None
        return self.compared[key]


def _said(sentence: str) -> AgeReason:
    return AgeReason("said", (sentence,))


def check_all(derived: Sequence[str], onto: Sequence[str], library: Path | None, keep_facts: bool = False) -> list[Age]:
    """The age of each file, in the order in which they were named.

    onto: bases to hold all of them against; () for the ledgers' own. keep_facts: changed facts make none stale.
    """
    seen = _Seen()
    return [_check(name, onto, library, seen, keep_facts) for name in derived]


def _check(name: str, onto: Sequence[str], library: Path | None, seen: _Seen, keep_facts: bool) -> Age:
    try:
        stored = load_ledger(name)
    except Refused as refused:
        return Age(name, unknown=tuple(_said(problem.message) for problem in refused.problems))
    folder = Path(name).parent
    behind: list[AgeReason] = []
    unknown: list[AgeReason] = []
    changes: list[RecipeChanges] = []
    place = _library(stored, folder, library)
    looks = (
        _bases(stored, folder, onto, seen),
        _recipes(stored, folder, place, seen, changes),
        _key_map(stored, folder, place, seen),
        () if keep_facts else _facts(stored, folder, place),
    )
    for reason, is_known in (item for look in looks for item in look):
        (behind if is_known else unknown).append(reason)
    edited, unread = _edited(stored, name, place, seen)
    return Age(name, tuple(behind), (*unread, *unknown), edited, tuple(changes))


def _edited(stored: Stored, name: str, library: Path | None, seen: _Seen) -> tuple[bool, list[AgeReason]]:
    """Whether it was edited since, and what then cannot be read. An unedited file was read when it was
    written.
    """
    if not os.path.isfile(name):
        return False, [AgeReason("derived file gone")]
    paths = derived_paths([name], stored)
    written = [item.sha256 for item in stored.file.outputs]
    left = broken_off(left_beside(Path(name)))
    if [seen.sha256(path) for path in paths] == written:
        doubts = ledger_doubts(stored, translation_now(derived_file(name, stored, recipes=False)))
        return False, [_said(text) for text in doubts[:MOST_TOLD]]
    if left:
        return False, [_said(left)]
    problems: list[Problem] = []
    key_map = read_key_map(key_map_word(stored, Path(name).parent), library, problems)
    if key_map is not None and not problems:
        documents = read_documents(map(str, paths), key_map.habits, problems)
        problems += translate(documents, key_map, load_vocabulary()).problems if not problems else ()
    return bool(written), [
        AgeReason("unreadable", (str(problem.place), problem.message)) for problem in problems[:MOST_TOLD]
    ]


def _bases(stored: Stored, folder: Path, onto: Sequence[str], seen: _Seen) -> Iterator[tuple[AgeReason, bool]]:
    """(the reason, whether it is known to be behind)."""
    paths = [Path(base) for base in onto_of(stored, folder, onto)] or base_words(stored, folder)
    files = stored.file.files
    if len(paths) != len(files):
        yield AgeReason("number of bases", (str(len(files)), str(len(paths)))), False
        return
    for path, item in zip(paths, files, strict=True):
        sha256 = seen.sha256(path)
        if not sha256:
            yield AgeReason("base unreadable", (str(path),)), False
        elif sha256 != item.sha256:
            yield AgeReason("base changed", (str(path),)), True


def _library(stored: Stored, folder: Path, named: Path | None) -> Path | None:
    call = stored.file.call
    return named or (Path(word_at(folder, call.library)) if call and call.library else None)


def _recipes(
    stored: Stored, folder: Path, place: Path | None, seen: _Seen, changes: list[RecipeChanges]
) -> Iterator[tuple[AgeReason, bool]]:
    """As ``_bases``. place: the library; changes: takes what changed rule by rule."""
    for word, use in zip(recipe_words(stored, folder), stored.named, strict=True):
        recipe, now = seen.recipe(word, place)
        then = use.sha256
        if recipe is None or recipe.name != use.name:
            yield AgeReason("recipe not found", (use.name,)), False
            continue
        if newer(recipe.version, use.version):
            yield AgeReason("recipe newer", (recipe.name, use.version, recipe.version)), True
        elif recipe.version == use.version and then and now != then:
            yield AgeReason("recipe's file changed", (recipe.name, recipe.version)), True
        else:
            continue
        block = seen.changes(use.text, recipe)
        changes += [block] if block is not None else []
        yield from ((reason, True) for reason in _answers(use, recipe))


def _answers(use: RecipeUse, recipe: Recipe) -> Iterator[AgeReason]:
    """Answers that the newer recipe does not ask for, and what it asks for that nobody answered then."""
    for name, answer in use.answers.items():
        if answer.origin == "answer" and name not in recipe.inputs:
            yield AgeReason("answer unasked", (name, answer.said))
    for name in recipe.inputs.keys() - use.answers.keys():
        yield AgeReason("asks anew", (recipe.name, name))


def _key_map(stored: Stored, folder: Path, library: Path | None, seen: _Seen) -> Iterator[tuple[AgeReason, bool]]:
    """As ``_bases``. Older ledgers do not say which bytes the map had."""
    then = stored.file.key_map_sha256
    path = (stored_map(stored, folder) or find(key_map_word(stored, folder), "key map", library)[0]) if then else None
    if path is not None and (now := seen.sha256(path)) and now != then:
        yield AgeReason("key map changed", (stored.file.key_map,)), True


def _facts(stored: Stored, folder: Path, library: Path | None) -> Iterator[tuple[AgeReason, bool]]:
    """As ``_bases``: the facts files that the ledger names, and what they say now."""
    now = facts_now(stored, folder, library)
    for file in dict.fromkeys(item.file for item in now.changes):
        yield AgeReason("facts changed", facts=tuple(item for item in now.changes if item.file == file)), True
    yield from ((AgeReason("facts unreadable", unread), False) for unread in now.unread)


def exit_code(ages: Sequence[Age]) -> int:
    """0 all current, 1 some stale, 2 some could not be judged."""
    states = {age.state for age in ages}
    return 2 if UNKNOWN in states else 1 if STALE in states else 0
