"""What a derivation is made from, read from its files."""

from __future__ import annotations

from collections.abc import Sequence

from profilesmith.engine.read import Ingredients, ingredients
from profilesmith.engine.source import Source
from profilesmith.foundation.problem import Problem
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.recipe.recipe import Recipe
from profilesmith.text.document import Habits
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.read import read_documents
from profilesmith.workflows.request import Request
from profilesmith.workflows.shelf import Shelf


def given_for(request: Request, shelf: Shelf | None = None) -> Ingredients:
    """What a derivation is made from, read from its files. Raises Refused with the problems of all files at once."""
    shelf = shelf or Shelf()
    problems: list[Problem] = []
    key_map = shelf.key_map(request.key_map, request.library, problems, request.shares)
    documents = read_documents(request.bases, key_map.habits if key_map else Habits(), problems)
    recipes = shelf.recipes(request.recipes, request.library, problems)
    recipes = [*recipes, *laid_recipes(request.laid or (), problems)]
    facts = {**request.held, **shelf.facts(request.facts, request.library, problems)}
    readings = shelf.readings(key_map) if key_map else None
    return ingredients(documents, key_map, recipes, facts, request.answers, problems, readings)


def laid_recipes(sources: Sequence[Source], problems: list[Problem]) -> list[Recipe]:
    """The recipes that are laid over the named ones and lie in no library."""
    recipes = []
    for source in sources:
        recipe, wrong = load_recipe(source.raw, source.name, load_vocabulary())
        problems += wrong
        recipes += [recipe] if recipe else []
    return recipes
