"""A new library: laid out whole, with something in it that can be checked at once."""

from __future__ import annotations

import re
from pathlib import Path

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.library.lay_out import in_the_way, lay_out, library_files
from profilesmith.lint.heads import LICENCE
from profilesmith.workflows.schema import schema_text

# A name stands in TOML and in Markdown: letters and digits of any language, and a few marks that mean nothing there.
NAME = re.compile(r"\w(?:[\w .,'()-]{0,78}[\w.)])?")
SCHEMAS = ("library", "recipe", "keymap", "facts", "evidence")


class LaidOut(NamedTuple):
    """A library as it was laid out. number: of its files."""

    name: str
    folder: Path
    number: int


def new_library(folder: Path, name: str, licence: str) -> LaidOut:
    """Lay out a library. Raises Refused; then nothing was written."""
    name = name or folder.absolute().name
    problems = [problem] if (problem := in_the_way(folder)) else []
    if not NAME.fullmatch(name):
        hint = "Use letters, digits, blanks and . , ' ( ) - only, at most 80 of them: --name."
        problems.append(Problem("name", f"The library cannot be called {name[:100]!r}.", Place("--name"), hint))
    if not LICENCE.fullmatch(licence):
        message = f"The licence {licence[:60]!r} is no short id of a licence."
        problems.append(
            Problem("licence", message, Place("--licence"), 'Write an id of the SPDX list, such as "CC0-1.0".')
        )
    refuse_if(problems)
    files = library_files(name, licence, _schemas())
    try:
        lay_out(folder, files)
    except OSError as error:
        message = f"The library cannot be written: {error.strerror or error}."
        raise Refused(
            [Problem("cannot-write", message, Place(str(folder)), "Name another place; nothing was left there.")]
        ) from error
    return LaidOut(name, folder, len(files))


def _schemas() -> dict[str, str]:
    """The schemas that an editor completes and checks with, by file name."""
    return {f"{name}.schema.json": schema_text(name) for name in SCHEMAS}
