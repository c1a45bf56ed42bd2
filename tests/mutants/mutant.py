"""Which wrong changes there are, room by room, and which of them are drawn."""

import random
import types
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from tests.mutants.mutations import Mutation, mutated, mutations

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "profilesmith"
ROOMS: dict[str, tuple[str, ...]] = {
    "recipe": ("tests/recipe",),
    "translation": ("tests/translation",),
    "profile": ("tests/profile",),
    "ledger": ("tests/ledger",),
    "merge": ("tests/merge",),
    "audit": ("tests/test_audit.py",),
}
"""A room's own tests."""
THEN = ("tests/test_cases.py", "tests/laws", "tests/workflows/rederive")
"""What runs after them."""


class Mutant(NamedTuple):
    """A mutation of a file of a room."""

    room: str
    path: Path
    mutation: Mutation

    def __str__(self) -> str:
        return f"{self.path.relative_to(PACKAGE)}:{self.mutation.line} {self.mutation.what}"

    def module(self) -> str:
        """Its name."""
        parts = self.path.relative_to(ROOT).with_suffix("").parts
        return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)

    def code(self) -> types.CodeType:
        """The module's code with the change in it."""
        tree = mutated(self.path.read_text(encoding="utf-8"), self.mutation.number)
        code: types.CodeType = compile(tree, str(self.path), "exec", dont_inherit=True)
        return code


def all_mutants(room: str) -> list[Mutant]:
    """Every mutant of a room, in a fixed order."""
    place = PACKAGE / room
    files = sorted(place.rglob("*.py")) if place.is_dir() else [place.with_suffix(".py")]
    return [Mutant(room, path, item) for path in files for item in mutations(path.read_text(encoding="utf-8"))]


def drawn(rooms: Sequence[str], number: int, seed: int, file: str = "") -> list[Mutant]:
    """As many of each room as its share of all mutants, none without some. file: a piece of the files' names."""
    every = {room: [item for item in all_mutants(room) if file in str(item.path)] for room in rooms}
    total = sum(map(len, every.values()))
    chance = random.Random(seed)
    chosen = []
    for mutants in every.values():
        count = min(len(mutants), max(5, round(number * len(mutants) / max(total, 1))))
        chosen += chance.sample(mutants, count)
    print(f"{total:,} mutants in {', '.join(rooms)}; {len(chosen)} of them drawn with seed {seed}", flush=True)
    return chosen
