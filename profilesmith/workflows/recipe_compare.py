"""Two versions of a recipe held against one another, and, where asked, tried on profiles."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from pathlib import Path

from profilesmith.engine.read import answered_facts, read_answers
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, did_you_mean, refuse_if
from profilesmith.library.find import shipped
from profilesmith.library.library import DESCRIPTION, load_library
from profilesmith.recipe.recipe import Recipe
from profilesmith.revision.on_profiles import ProfileEffect, TrialProfile, effect_on
from profilesmith.revision.recipe_changes import RecipeChanges, recipe_changes
from profilesmith.workflows.library.folder import ground, library_folder
from profilesmith.workflows.library.starter import is_example_profile
from profilesmith.workflows.read import read, read_facts, read_recipes
from profilesmith.workflows.request import Request

ALL = "library"
"""The word for every reference profile of the library."""


class ComparedRecipes(NamedTuple):
    """effects: what the change does to each profile that both were tried on."""

    changes: RecipeChanges
    effects: tuple[ProfileEffect, ...]


def compare_recipes(old: str, new: str, asked: Request, on: Sequence[str] = ()) -> ComparedRecipes:
    """What changed, and what that does. Raises Refused.

    asked: the library; for files in ``on`` also their map, facts and answers. on: files, names of the library's
    reference profiles, or ``library`` for all of these.
    """
    problems: list[Problem] = []
    recipes = read_recipes((old, new), asked.library, problems)
    refuse_if(problems)
    before, after = recipes
    samples = list(_samples(asked, on, recipes))
    effects = tuple(effect_on(sample, before, after) for sample in samples)
    return ComparedRecipes(recipe_changes(before, after), effects)


def _samples(asked: Request, on: Sequence[str], recipes: list[Recipe]) -> Iterator[TrialProfile]:
    files = tuple(name for name in on if name != ALL and os.path.isfile(name))
    names = [name for name in on if name not in files]
    if files:
        yield from _of_files(asked._replace(bases=files), recipes)
    if names:
        yield from _of_library(asked.library, names)


def _of_files(asked: Request, recipes: list[Recipe]) -> Iterator[TrialProfile]:
    if not asked.key_map:
        hint = "Name the key map that reads it with --keymap."
        raise Refused([Problem("no-map", "A settings text cannot be read without a key map.", Place("--on"), hint)])
    problems: list[Problem] = []
    facts = answered_facts(asked.answers, read_facts(asked.facts, asked.library, problems), problems)
    answers = read_answers(asked.answers, recipes, problems)
    refuse_if(problems)
    for base in asked.bases:
        yield TrialProfile(base, read(asked._replace(bases=(base,))).profile, facts, answers)


def _of_library(named: Path | None, names: list[str]) -> Iterator[TrialProfile]:
    library, problems = load_library(_folder(named))
    refuse_if(problems)
    assert library is not None
    known = [profile.name for profile in library.profiles]
    unknown = [name for name in names if name not in (*known, ALL)]
    hint = f"Known: {', '.join((ALL, *known))}."
    refuse_if(
        Problem(
            "no-profile",
            f"{name!r} is no file and no reference profile.",
            Place("--on"),
            did_you_mean(name, known, hint),
        )
        for name in unknown
    )
    for profile in library.profiles:
        if profile.name in names or (ALL in names and not is_example_profile(library, profile)):
            where, faults = ground(library, profile)
            refuse_if(faults)
            assert where is not None
            yield TrialProfile(profile.name, where.translation.profile, where.facts)


def _folder(named: Path | None) -> Path:
    """The library of a call; where none is meant, the one that ships."""
    try:
        return library_folder(named)
    except Refused:
        if named is not None or not os.path.isfile(shipped() / DESCRIPTION):
            raise
        return shipped()
