"""Maps, recipes and facts that are read once for many derivations of one run."""

from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any, TypeVar

from profilesmith.facts.facts import Facts
from profilesmith.foundation.problem import Problem
from profilesmith.recipe.outcomes import Outcomes
from profilesmith.recipe.recipe import Recipe
from profilesmith.translation.document_to_profile import Readings
from profilesmith.translation.key_map import KeyMap
from profilesmith.workflows import read
from profilesmith.workflows.request import Request

MOST_READINGS = 100_000


Asked = TypeVar("Asked")
Found = TypeVar("Found")
Read = Callable[[Asked, Path | None, list[Problem]], Found]


class Shelf:
    """What was read, by the name that was asked for. A file that changes during a run is not read again."""

    def __init__(self) -> None:
        self._read: dict[tuple[object, ...], tuple[Any, list[Problem]]] = {}
        self._readings: dict[tuple[str, str], Readings] = {}
        self._outcomes: dict[tuple[object, ...], Outcomes] = {}

    def _once(self, look: Read[Asked, Found], asked: Asked, library: Path | None, problems: list[Problem]) -> Found:
        key = (look, asked, library)
        if key not in self._read:
            complaints: list[Problem] = []
            self._read[key] = look(asked, library, complaints), complaints
        content, complaints = self._read[key]
        problems += complaints
        return content  # type: ignore[no-any-return]

    def key_map(self, name: str, library: Path | None, problems: list[Problem], shares: str = "") -> KeyMap | None:
        key_map = self._once(read.read_key_map, name, library, problems)
        return key_map and key_map.with_shares(shares)

    def recipes(self, names: Iterable[str], library: Path | None, problems: list[Problem]) -> list[Recipe]:
        return [recipe for name in names for recipe in self._once(read.read_recipes, (name,), library, problems)]

    def facts(self, names: tuple[str, ...], library: Path | None, problems: list[Problem]) -> Facts:
        return self._once(read.read_facts, names, library, problems)

    def outcomes(self, request: Request) -> Outcomes:
        """What rules have come to so far with a request's recipes, facts and answers."""
        asked = (request.recipes, request.facts, tuple(sorted(request.answers.items())), request.library)
        return self._outcomes.setdefault(asked, Outcomes())

    def readings(self, key_map: KeyMap, shares: str = "") -> Readings:
        """What texts read with a map have said so far. shares: as the request has it."""
        known = self._readings.setdefault((key_map.file, shares), {})
        if len(known) > MOST_READINGS:
            known.clear()
        return known
