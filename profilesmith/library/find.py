"""A recipe, map or facts file by name: a path, or a name in a library folder, or one that ships with the package."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import suppress
from functools import cache
from pathlib import Path

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, did_you_mean
from profilesmith.foundation.read_file import names_a_file

ENDING = ".toml"
DESCRIPTION = "library"
"""The name of the file that describes a library."""
KINDS = {"recipe": ("", "recipes"), "key map": ("keymaps",), "facts": ("facts",)}


@cache
def shipped() -> Path:
    """The recipes that travel with the package: in the wheel inside it, in a checkout beside it."""
    package = Path(__file__).resolve().parent.parent
    inside = package / "shipped"
    return inside if os.path.isdir(inside) else package.parent / "recipes"


def libraries(folder: Path | None) -> list[Path]:
    """The folders to look in, nearest first: ``--library``, $PROFILESMITH_LIBRARY, the shipped one. Raises Refused."""
    named = named_library(folder)
    return [shipped()] if named is None else [named, shipped()]


def named_library(folder: Path | None) -> Path | None:
    """The library that ``--library`` names, else $PROFILESMITH_LIBRARY; None where nobody names one.

    Raises Refused when one is named and is none: another one's recipe of the same name is not what was meant.
    """
    by_environment = os.environ.get("PROFILESMITH_LIBRARY")
    named = folder or (Path(by_environment) if by_environment else None)
    if named is None or is_library(named):
        return named
    said = "--library" if folder else "PROFILESMITH_LIBRARY"
    message = f"{said} names {str(named)!r}, which is no folder with recipes, key maps or facts."
    hint = "Check the name, or leave it out; 'profilesmith library new FOLDER' lays out a library."
    raise Refused([Problem("no-library", message, hint=hint)])


def is_library(folder: Path) -> bool:
    """Whether a folder holds anything that could be looked up by name, or the places for it."""
    places = {part for parts in KINDS.values() for part in parts if part}
    return os.path.isdir(folder) and (
        any(os.path.isdir(folder / place) for place in (*places, "evidence", "troubles")) or bool(_toml_files(folder))
    )


def names(kind: str, folder: Path | None) -> Iterator[tuple[str, Path]]:
    """All files of a kind in the libraries, by name; a nearer library's name hides a farther one's.

    A stranger's library leads nowhere else: what is a link out of it, or no plain file, is none of its files.
    """
    seen: set[str] = set()
    for library in libraries(folder):
        for part in KINDS[kind]:
            for file in _toml_files(library / part):
                name, path = file.removesuffix(ENDING), library / part / file
                if name not in seen and name != DESCRIPTION and not _leads_out(path, library):
                    seen.add(name)
                    yield name, path


def _toml_files(folder: Path) -> list[str]:
    """The names of a folder's files of ours, in order; none of a folder that is not there."""
    with suppress(OSError):
        return sorted(name for name in os.listdir(folder) if name.endswith(ENDING) and name != ENDING)
    return []


def _leads_out(path: Path, library: Path) -> bool:
    """Whether a file is no plain one (a pipe never ends), or lies outside of its library once links are followed."""
    linked = path.is_symlink() or path.parent.is_symlink()
    return not os.path.isfile(path) or (linked and not path.resolve().is_relative_to(library.resolve()))


def find(text: str, kind: str, folder: Path | None) -> tuple[Path | None, Problem | None]:
    """The file that a word on the command line means. Raises Refused for a library that is none."""
    folders = libraries(folder)
    path = Path(text)
    if names_a_file(text) or os.path.exists(text):
        return path, None
    named = [(library, library / part / f"{text}{ENDING}") for library in folders for part in KINDS[kind]]
    there = [(library, path) for library, path in named if os.path.lexists(path) and text != DESCRIPTION]
    for library, path in there:
        if not _leads_out(path, library):
            return path, None
    if there:
        message = f"The {kind} {text!r} is a link out of its library, or no plain file."
        hint = "Copy the file into the library, or name it with its path."
        return None, Problem("outside", message, Place(str(there[0][1])), hint)
    known = dict(names(kind, folder))
    hint = did_you_mean(text, known, f"Known: {', '.join(known) or 'none'}. A file is named with its ending.")
    return None, Problem("not-found", f"There is no {kind} called {text!r}.", hint=hint)
