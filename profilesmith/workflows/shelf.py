"""Maps, recipes and facts that are read once for many derivations of one run."""

from collections.abc import Iterable
from pathlib import Path

from profilesmith.facts.facts import Facts
from profilesmith.foundation.problem import Problem
from profilesmith.recipe.outcomes import Outcomes
from profilesmith.recipe.recipe import Recipe
from profilesmith.translation.document_to_profile import Readings
from profilesmith.translation.key_map import KeyMap
from profilesmith.workflows import read
from profilesmith.workflows.request import Request

MOST_READINGS = 100_000


class Shelf:
    """What was read, by the name that was asked for. A file that changes during a run is not read again."""

    def __init__(self) -> None:
        self._maps: dict[tuple[str, Path | None], tuple[KeyMap | None, list[Problem]]] = {}
        self._recipes: dict[tuple[str, Path | None], tuple[list[Recipe], list[Problem]]] = {}
        self._facts: dict[tuple[tuple[str, ...], Path | None], tuple[Facts, list[Problem]]] = {}
        self._readings: dict[str, Readings] = {}
        self._outcomes: dict[tuple[object, ...], Outcomes] = {}

    def key_map(self, name: str, library: Path | None, problems: list[Problem]) -> KeyMap | None:
        if (name, library) not in self._maps:
            found: list[Problem] = []
            self._maps[name, library] = read.read_key_map(name, library, found), found
        key_map, told = self._maps[name, library]
        problems += told
        return key_map

    def recipes(self, names: Iterable[str], library: Path | None, problems: list[Problem]) -> list[Recipe]:
        recipes: list[Recipe] = []
        for name in names:
            if (name, library) not in self._recipes:
                found: list[Problem] = []
                self._recipes[name, library] = read.read_recipes([name], library, found), found
            there, told = self._recipes[name, library]
            recipes += there
            problems += told
        return recipes

    def facts(self, names: tuple[str, ...], library: Path | None, problems: list[Problem]) -> Facts:
        if (names, library) not in self._facts:
            found: list[Problem] = []
            self._facts[names, library] = read.read_facts(names, library, found), found
        facts, told = self._facts[names, library]
        problems += told
        return facts

    def outcomes(self, request: Request) -> Outcomes:
        """What rules have come to so far with a request's recipes, facts and answers."""
        asked = (request.recipes, request.facts, tuple(sorted(request.answers.items())), request.library)
        return self._outcomes.setdefault(asked, Outcomes())

    def readings(self, key_map: KeyMap) -> Readings:
        """What texts read with a map have said so far."""
        known = self._readings.setdefault(key_map.file, {})
        if len(known) > MOST_READINGS:
            known.clear()
        return known
