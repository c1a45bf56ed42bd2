"""Recipes: all of a library, some that were named, and their examples run."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.problem import Problem, refuse_if
from profilesmith.library.find import find, names
from profilesmith.library.open_files import open_recipe
from profilesmith.library.run_examples import ExampleResult, run_examples
from profilesmith.recipe.recipe import Recipe
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.read import read_recipes


def all_recipes(library: Path | None) -> list[tuple[str, Recipe | None]]:
    """Each by name; None for one that cannot be read."""
    return [(name, open_recipe(path)[0]) for name, path in names("recipe", library)]


def recipes_called(words: Sequence[str], library: Path | None) -> list[Recipe]:
    """Raises Refused."""
    problems: list[Problem] = []
    recipes = read_recipes(words, library, problems)
    refuse_if(problems)
    return recipes


class CheckedRecipe(NamedTuple):
    """recipe: None where it cannot be read; then problems say why. results: of its examples."""

    recipe: Recipe | None
    problems: tuple[Problem, ...] = ()
    results: tuple[ExampleResult, ...] = ()


def check_recipes(wanted: tuple[str, ...], library: Path | None) -> list[CheckedRecipe]:
    """Those that are named, else all of the library. Raises Refused for one that is not there."""
    checked = []
    for name in wanted or tuple(name for name, _ in names("recipe", library)):
        path, missing = find(name, "recipe", library)
        refuse_if([missing] if path is None and missing else [])
        if path is None:
            continue
        recipe, problems = open_recipe(path)
        results = tuple(run_examples(recipe, load_vocabulary())) if recipe is not None else ()
        checked.append(CheckedRecipe(recipe, tuple(problems) if recipe is None else (), results))
    return checked


def exit_code(checked: Sequence[CheckedRecipe]) -> int:
    """2 when a recipe cannot be read, 1 when an example fails."""
    if any(item.recipe is None for item in checked):
        return 2
    return int(any(result.faults for item in checked for result in item.results))
