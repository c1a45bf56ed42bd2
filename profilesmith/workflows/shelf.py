"""Maps, recipes and facts that are read once for many derivations of one run.

And what one derivation is made from, read from its files.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import Any, TypeVar

from profilesmith.engine.read import Ingredients, Source, ingredients
from profilesmith.facts.facts import Facts
from profilesmith.foundation.problem import Problem
from profilesmith.ledger.plain_forms import Texts
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.recipe.outcomes import Outcomes
from profilesmith.recipe.recipe import Recipe
from profilesmith.text.document import Habits
from profilesmith.translation.key_map import KeyMap
from profilesmith.translation.readings import Readings
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows import read
from profilesmith.workflows.read import read_documents
from profilesmith.workflows.request import Request, View

Asked = TypeVar("Asked")
Found = TypeVar("Found")
Read = Callable[[Asked, Path | None, list[Problem]], Found]


class Shelf:
    """What was read, by the name that was asked for. A file that changes during a run is not read again.

    texts: of what the run's ledgers have in common. folders: those that were made for outputs, or are there.
    """

    def __init__(self) -> None:
        self._read: dict[tuple[object, ...], tuple[Any, list[Problem]]] = {}
        self._readings: dict[int, Readings] = {}
        self._outcomes: dict[tuple[object, ...], Outcomes] = {}
        self._views: dict[Path, View] = {}
        self.texts = Texts()
        self.folders: set[str] = set()

    def _once(self, look: Read[Asked, Found], asked: Asked, library: Path | None, problems: list[Problem]) -> Found:
        key = (look, asked, library)
        if key not in self._read:
            complaints: list[Problem] = []
            self._read[key] = look(asked, library, complaints), complaints
        content, complaints = self._read[key]
        problems += complaints
        return content  # type: ignore[no-any-return]

    def key_map(self, name: str, library: Path | None, problems: list[Problem], shares: str = "") -> KeyMap | None:
        return self._once(_key_map, (name, shares), library, problems)

    def recipes(self, names: Iterable[str], library: Path | None, problems: list[Problem]) -> list[Recipe]:
        return [recipe for name in names for recipe in self._once(read.read_recipes, (name,), library, problems)]

    def facts(self, names: tuple[str, ...], library: Path | None, problems: list[Problem]) -> Facts:
        return self._once(read.read_facts, names, library, problems)

    def outcomes(self, request: Request) -> Outcomes:
        """What rules have come to so far with a request's recipes, facts and answers."""
        asked = (request.recipes, request.facts, tuple(sorted(request.answers.items())), request.library)
        return self._outcomes.setdefault(asked, Outcomes())

    def view(self, folder: Path) -> View:
        """Files as seen from a ledger's folder."""
        if folder not in self._views:
            self._views[folder] = View(folder)
        return self._views[folder]

    def readings(self, key_map: KeyMap) -> Readings:
        """What texts read with a map have said so far."""
        known = self._readings.get(id(key_map))  # which they hold, so that no other map can have its number
        if known is None:
            known = self._readings[id(key_map)] = Readings(key_map, load_vocabulary())
        return known


def _key_map(asked: tuple[str, str], library: Path | None, problems: list[Problem]) -> KeyMap | None:
    """A map by its name, for a run that says what becomes of shares."""
    name, shares = asked
    key_map = read.read_key_map(name, library, problems)
    return key_map and key_map.with_shares(shares)


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
