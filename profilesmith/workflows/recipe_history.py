"""The versions of a library's recipes: from git's main line, each with its day and what it changed."""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from itertools import pairwise
from pathlib import Path
from typing import NamedTuple

from profilesmith.catalogue.catalogue import Changes
from profilesmith.lint.past import past_of
from profilesmith.recipe.recipe import Recipe
from profilesmith.revision.on_profiles import Sample, effect_told
from profilesmith.revision.recipe_changes import recipe_changes
from profilesmith.revision.words import changes_told
from profilesmith.workflows.recipe_compare import recipe_in

MOST_VERSIONS = 12  # on a page, the newest
MOST_PROFILES = 3  # on which the newest change is tried


class Dated(NamedTuple):
    """A version as it stood last. day: since when it is called so, "" where it is not committed."""

    day: str
    recipe: Recipe


def versions_of(folder: Path, files: Mapping[Path, Recipe]) -> dict[Path, tuple[Dated, ...]]:
    """The versions of each recipe file, the oldest first; the last one is the file at hand. Without git that alone.

    files: by path, as they read now.
    """
    names = {path: os.path.relpath(path, folder).replace(os.sep, "/") for path in files}
    past = past_of(folder, tuple(names.values()))
    return {path: _versions(past.get(names[path], ()), recipe, names[path]) for path, recipe in files.items()}


def _versions(past: Sequence[tuple[str, bytes]], now: Recipe, name: str) -> tuple[Dated, ...]:
    """Of states that follow one another with the same version the last, with the day of the first."""
    found: list[Dated] = []
    for day, raw in past:
        recipe = now if raw == now.raw else recipe_in(raw, name)
        if recipe is not None:
            same = bool(found) and found[-1].recipe.version == recipe.version
            found[-1:] = [*([] if same else found[-1:]), Dated(found[-1].day if same else day, recipe)]
    if not found or found[-1].recipe.version != now.version:
        return (*found, Dated("", now))
    return (*found[:-1], found[-1]._replace(recipe=now))


def history_of(versions: Sequence[Dated], samples: Sequence[Sample]) -> tuple[Changes, ...]:
    """Each version and what it changed, the newest first. samples: what the newest change is tried on."""
    told = [_changes(before.recipe, after) for before, after in pairwise(versions)]
    if told:
        effects = (effect_told(sample, versions[-2].recipe, versions[-1].recipe) for sample in samples[:MOST_PROFILES])
        told[-1] = told[-1]._replace(effects=tuple(effects))
    first = [Changes(versions[0].recipe.version, versions[0].day)] if versions else []
    return tuple([*first, *told][-MOST_VERSIONS:][::-1])


def _changes(old: Recipe, new: Dated) -> Changes:
    told = changes_told(recipe_changes(old, new.recipe))
    return Changes(new.recipe.version, new.day, told.summary, told.blocks)
