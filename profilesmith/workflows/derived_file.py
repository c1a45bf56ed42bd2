"""A derived file on a disk: its ledger, its texts as they are now, and the map and recipes that the ledger names."""

from __future__ import annotations

import os
from pathlib import Path

from profilesmith.engine.derived_file import DerivedFile, TextAsItLies
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, nearest
from profilesmith.foundation.read_file import cannot_read
from profilesmith.ledger.file import LARGEST_LEDGER
from profilesmith.ledger.place import ledger_beside
from profilesmith.ledger.read import Stored, read_ledger
from profilesmith.left_over import unfinished
from profilesmith.library.open_files import open_key_map
from profilesmith.recipe.recipe import Recipe
from profilesmith.translation.key_map import KeyMap
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.read import plain_bytes, read_recipes
from profilesmith.workflows.request import Request
from profilesmith.workflows.request_again import request_again, stored_map
from profilesmith.workflows.shelf import laid_recipes


def derived_file(derived: str, stored: Stored | None = None, recipes: bool = True) -> DerivedFile:
    """The file as it lies. stored: its ledger, where that was read already; recipes: whether they are needed.
    Raises Refused.
    """
    stored = stored or load_ledger(derived)
    path = Path(derived)
    texts = tuple(_text(path.with_name(item.name)) for item in stored.file.outputs)
    used = _recipes(stored, path.parent) if recipes else None
    return DerivedFile(derived, stored, texts, _key_map(stored, path.parent), used, left_beside(path))


def left_beside(derived: Path) -> str:
    """The name of a file that a run which did not end has left; "" for none."""
    left = unfinished(ledger_beside(derived))
    return left[0].name if left else ""


def _text(path: Path) -> TextAsItLies:
    """One that is there may be a pipe or a device, which has no end: nothing of it is read."""
    return TextAsItLies(str(path), plain_bytes(path), os.path.isfile(path))


def _key_map(stored: Stored, folder: Path) -> KeyMap | None:
    place = stored_map(stored, folder)
    return open_key_map(place, str(place))[0] if place else None


def _recipes(stored: Stored, folder: Path) -> tuple[Recipe, ...] | None:
    """The recipes of then, as they can be read now."""
    problems: list[Problem] = []
    try:
        request = request_again(stored, folder, Request(bases=(), key_map="")).request
    except Refused:
        return None
    recipes = [*read_recipes(request.recipes, request.library, problems), *laid_recipes(request.laid or (), problems)]
    return None if problems else tuple(recipes)


def _nearby_hint(asked: Path) -> str:
    """Which file of the folder has a ledger, the one whose name is like it, or else the first."""
    ending = ledger_beside(Path("x")).name[1:]
    try:
        names = sorted(path.name.removesuffix(ending) for path in asked.parent.glob(f"*{ending}"))
    except OSError:
        names = []
    near = nearest(asked.name, names)
    if near:
        return f"Name a file that 'derive' wrote. Did you mean {str(asked.with_name(near))!r}?"
    here = f"Here that is {str(asked.with_name(names[0]))!r}." if names else "Its ledger must lie beside it."
    return f"Name a file that 'derive' wrote. {here}"


def load_ledger(derived: str) -> Stored:
    """The stored ledger of a derived file. Raises Refused."""
    path = ledger_beside(Path(derived))
    if os.path.exists(path) and not os.path.isfile(path):
        raise Refused(
            [
                Problem(
                    "no-ledger", f"{path.name!r} is no plain file.", Place(derived), "Derive again to get a new ledger."
                )
            ]
        )
    try:
        with path.open("rb") as stream:
            text = stream.read(LARGEST_LEDGER + 1).decode("utf-8")
    except FileNotFoundError as error:
        hint = _nearby_hint(Path(derived))
        if not os.path.exists(derived):
            raise Refused(
                [Problem("no-file", "There is no such file, and no ledger of it.", Place(derived), hint)]
            ) from error
        raise Refused(
            [Problem("no-ledger", f"There is no ledger {path.name!r} beside it.", Place(derived), hint)]
        ) from error
    except (OSError, UnicodeDecodeError) as error:
        reason = error if isinstance(error, OSError) else OSError(0, "it is not UTF-8 text")
        raise Refused([cannot_read(str(path), reason)]) from error
    stored = read_ledger(text, str(path), load_vocabulary())
    if isinstance(stored, Problem):
        raise Refused([stored])
    return stored
