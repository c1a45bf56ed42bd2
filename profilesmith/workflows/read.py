"""Files to documents, map, recipes, facts and answers; all problems of all files in one run.

Files that a ledger names may come from a stranger and be anything: a pipe has no end, a device no size.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from profilesmith.engine.read import Source, document_of
from profilesmith.facts.facts import Facts
from profilesmith.foundation.digest import sha256_hex
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, refuse_if
from profilesmith.foundation.read_file import at_most, cannot_read, must_be_plain
from profilesmith.library.find import find
from profilesmith.library.open_files import open_facts, open_key_map, open_recipe, shown_name
from profilesmith.recipe.recipe import Recipe
from profilesmith.text.document import Document, Habits
from profilesmith.translation.document_to_profile import Translation, translate
from profilesmith.translation.key_map import KeyMap
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.request import Request

LARGEST_TEXT = 200_000_000  # bytes


def read_documents(names: Iterable[str], habits: Habits, problems: list[Problem]) -> tuple[Document, ...]:
    """The base files. A file without a single assignment is a problem that says what it seems to be."""
    return tuple(document_of(source, habits, problems) for source in read_sources(names, problems))


def read_sources(names: Iterable[str], problems: list[Problem]) -> list[Source]:
    """The bytes of settings texts."""
    raws = ((name, _bytes(name, problems)) for name in names)
    return [Source(name, raw) for name, raw in raws if raw is not None]


def _bytes(name: str, problems: list[Problem]) -> bytes | None:
    try:
        path = Path(name)
        must_be_plain(path)
        with path.open("rb", 0) as stream:  # nothing is gained by a buffer: all is read at once
            raw = at_most(stream, LARGEST_TEXT + 1)
        if len(raw) <= LARGEST_TEXT:
            return raw
        hint = "A settings text is far smaller; name the right file."
        problems.append(Problem("too-large", f"The file is larger than {LARGEST_TEXT:,} bytes.", Place(name), hint))
        return None
    except (OSError, ValueError) as error:
        problems.append(cannot_read(name, error if isinstance(error, OSError) else FileNotFoundError()))
        return None


def read_key_map(name: str, library: Path | None, problems: list[Problem]) -> KeyMap | None:
    """A map by file or name."""
    path, missing = find(name, "key map", library)
    if path is None:
        problems += [missing] if missing else []
        return None
    key_map, faults = open_key_map(path)
    problems += faults
    return key_map


def read_recipes(names: Iterable[str], library: Path | None, problems: list[Problem]) -> list[Recipe]:
    """Recipes by file or name, in order."""
    recipes = []
    for name in names:
        path, missing = find(name, "recipe", library)
        if path is None:
            problems += [missing] if missing else []
            continue
        recipe, faults = open_recipe(path)
        problems += faults
        if recipe is not None:
            recipes.append(recipe)
    return recipes


def read_facts(names: Iterable[str], library: Path | None, problems: list[Problem]) -> Facts:
    """Facts files by file or name, added up."""
    paths = []
    for name in names:
        path, missing = find(name, "facts", library)
        if path is None:
            problems += [missing] if missing else []
        else:
            paths.append((path, shown_name(path)))
    facts, faults = open_facts(paths)
    problems += faults
    return facts


def read(request: Request) -> Translation:
    """The base files of a request through its key map. Raises Refused with every problem found."""
    problems: list[Problem] = []
    key_map = read_key_map(request.key_map, request.library, problems)
    documents = read_documents(request.bases, key_map.habits if key_map else Habits(), problems)
    refuse_if(problems)
    assert key_map is not None
    translation = translate(documents, key_map.with_shares(request.shares), load_vocabulary())
    refuse_if(translation.problems)
    return translation


def plain_bytes(path: Path, most: int = LARGEST_TEXT) -> bytes | None:
    """A file's bytes; None for one that is missing, cannot be read, is no plain file, or has more than ``most``
    bytes.
    """
    try:
        if not path.is_file():
            return None
        with path.open("rb", 0) as stream:
            raw = at_most(stream, most + 1)
    except (OSError, ValueError):
        return None
    return raw if len(raw) <= most else None


def sha256_of(path: Path) -> str:
    """The hash of a file's bytes, in hexadecimal digits; "" where ``plain_bytes`` has none."""
    raw = plain_bytes(path)
    return "" if raw is None else sha256_hex(raw)
