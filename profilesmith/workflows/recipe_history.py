"""The versions of a library's recipes: from git's main line, each with its day and what it changed."""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from itertools import pairwise
from pathlib import Path

from profilesmith.catalogue.catalogue import RecipeVersion
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.lint.past import past_of
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.recipe.recipe import Recipe
from profilesmith.revision.on_profiles import TrialProfile, effect_on
from profilesmith.revision.recipe_changes import recipe_changes
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

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
    kept: list[Dated] = []
    for day, raw in past:
        recipe = now if raw == now.raw else load_recipe(raw, name, load_vocabulary())[0]
        if recipe is not None:
            same = bool(kept) and kept[-1].recipe.version == recipe.version
            kept[-1:] = [*([] if same else kept[-1:]), Dated(kept[-1].day if same else day, recipe)]
    if not kept or kept[-1].recipe.version != now.version:
        return (*kept, Dated("", now))
    return (*kept[:-1], kept[-1]._replace(recipe=now))


def history_of(versions: Sequence[Dated], samples: Sequence[TrialProfile]) -> tuple[RecipeVersion, ...]:
    """Each version and what it changed, the newest first. samples: what the newest change is tried on."""
    steps = [
        RecipeVersion(after.recipe.version, after.day, recipe_changes(before.recipe, after.recipe))
        for before, after in pairwise(versions)
    ]
    if steps:
        last = versions[-2].recipe, versions[-1].recipe
        effects = (effect_on(sample, *last) for sample in samples[:MOST_PROFILES])
        steps[-1] = steps[-1]._replace(effects=tuple(effects))
    first = [RecipeVersion(versions[0].recipe.version, versions[0].day)] if versions else []
    return tuple([*first, *steps][-MOST_VERSIONS:][::-1])
