"""A recipe, a key map or facts from a file, under the name by which people know it.

A file that ships with the package is called ``shipped/...``: where the package lies is no matter of texts and ledgers.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from profilesmith.facts.facts import Facts
from profilesmith.facts.load_facts import load_facts
from profilesmith.foundation.place import SHIPPED
from profilesmith.foundation.problem import Problem
from profilesmith.foundation.read_file import read_bounded
from profilesmith.library.find import shipped
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.recipe.recipe import Recipe
from profilesmith.translation.key_map import KeyMap
from profilesmith.translation.load_key_map import load_key_map
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


def shown_name(path: Path) -> str:
    """A file's name for messages and ledgers."""
    name, package = path.as_posix(), f"{shipped().as_posix()}/"
    return f"{SHIPPED}{name.removeprefix(package)}" if name.startswith(package) else str(path)


def real_place(name: str) -> Path:
    """Where the file of a shown name lies."""
    return shipped() / name.removeprefix(SHIPPED) if ships(name) else Path(name)


def ships(name: str) -> bool:
    """Whether a shown name is that of a file that came with the package."""
    return name.startswith(SHIPPED) and not Path(name).exists()


def open_recipe(path: Path, name: str = "") -> tuple[Recipe | None, list[Problem]]:
    """As ``load_recipe``."""
    name = name or shown_name(path)
    raw = read_bounded(path, name)
    return (None, [raw]) if isinstance(raw, Problem) else load_recipe(raw, name, load_vocabulary())


def open_key_map(path: Path, name: str = "") -> tuple[KeyMap | None, list[Problem]]:
    """As ``load_key_map``."""
    name = name or shown_name(path)
    raw = read_bounded(path, name)
    return (None, [raw]) if isinstance(raw, Problem) else load_key_map(raw, name, load_vocabulary())


def open_facts(files: Iterable[tuple[Path, str]]) -> tuple[Facts, list[Problem]]:
    """As ``load_facts``, each file with the name by which the user knows it."""
    read, problems = [], []
    for path, name in files:
        raw = read_bounded(path, name)
        if isinstance(raw, Problem):
            problems.append(raw)
        else:
            read.append((raw, name))
    facts, wrong = load_facts(read)
    return facts, [*problems, *wrong]
