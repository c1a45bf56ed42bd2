"""Which recipes of a library changed since a revision, rule by rule, and what all changes do to its reference
profiles.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

from profilesmith.lint.head_commit import committed
from profilesmith.lint.names import LibraryNames, files_of
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.revision.recipe_changes import RecipeChanges, recipe_changes
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.library.checked import Changed
from profilesmith.workflows.library.earlier import earlier_folder
from profilesmith.workflows.library.effect_blocks import blocks_of
from profilesmith.workflows.library.effects import Effect, begin_sides, effects_of
from profilesmith.workflows.library.other_words import other_words
from profilesmith.workflows.library.taken_away import taken_away
from profilesmith.workflows.parallel import Tell, in_order

CHUNK = 4  # recipes that a process is given at once


def changed_since(names: LibraryNames) -> Iterator[RecipeChanges]:
    """For each recipe that differs from what the revision holds, what changed. One that does not read is the lint's."""
    for path in files_of(names.folder, "recipe"):
        raw = path.read_bytes()
        before = committed(names.folder, names.head, path, raw)
        old, new = (
            load_recipe(text, str(path), load_vocabulary())[0] if isinstance(text, bytes) else None
            for text in (before, raw)
        )
        if old is not None and new is not None:
            yield recipe_changes(old, new)


def changes_since(names: LibraryNames, processes: int, tell: Tell) -> Changed:
    """What differs from the revision, what that does, and what it takes away."""
    rules = tuple(changed_since(names))
    with earlier_folder(names) as before:
        if before is None:
            return Changed(names.head.since, rules, None)
        effects = _effects(before, names, processes, tell)
        gone = (*taken_away(before, names.folder), *other_words(before, names.folder))
    return Changed(names.head.since, rules, tuple(effects), blocks_of(effects), gone)


def _effects(before: Path, names: LibraryNames, processes: int, tell: Tell) -> list[Effect]:
    """Every derivation that comes out otherwise than at the revision. before: where that is laid out."""
    recipes = [path.stem for path in files_of(names.folder, "recipe")]
    folders = (os.fspath(before), os.fspath(names.folder))
    by_recipe = in_order(effects_of, recipes, begin_sides, folders, processes, tell, CHUNK)
    return [effect for effects in by_recipe for effect in effects]
