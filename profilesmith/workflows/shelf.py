"""Maps, recipes and facts that are read once for many derivations of one run."""

from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any, TypeVar

from profilesmith.facts.facts import Facts
from profilesmith.foundation.problem import Problem
from profilesmith.ledger.plain_forms import Texts
from profilesmith.recipe.outcomes import Outcomes
from profilesmith.recipe.recipe import Recipe
from profilesmith.translation.key_map import KeyMap
from profilesmith.translation.readings import Readings
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows import read
from profilesmith.workflows.call import View
from profilesmith.workflows.request import Request

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
