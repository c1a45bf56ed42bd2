"""Files of ours from a disk: the bytes, bounded, or why there are none. What stands in them is read elsewhere."""

from __future__ import annotations

from pathlib import Path

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem
from profilesmith.foundation.toml_bounds import LARGEST_FILE
from profilesmith.foundation.toml_table import TomlTable, parse_toml


def read_toml(path: Path, name: str, form: str, newest: int = 1) -> tuple[TomlTable | None, list[Problem]]:
    """Read a file of ours. ``form`` is the word for it ("recipe"); ``newest`` the format this version knows."""
    raw = read_bounded(path, name)
    return (None, [raw]) if isinstance(raw, Problem) else parse_toml(raw, name, form, newest)


def read_bounded(path: Path, name: str) -> bytes | Problem:
    """A file's bytes, or why there are none. Of one that is too large a byte more than ``parse_toml`` takes."""
    try:
        with path.open("rb") as stream:  # a pipe or a device has no size to ask for
            return stream.read(LARGEST_FILE + 1)
    except (OSError, ValueError) as error:  # ValueError: a name with a zero byte
        return cannot_read(name, error if isinstance(error, OSError) else FileNotFoundError())


def cannot_read(name: str, error: OSError) -> Problem:
    """The problem for a file that cannot be opened."""
    if isinstance(error, FileNotFoundError):
        return Problem("no-file", "There is no such file.", Place(name), "Check the name and the folder.")
    if isinstance(error, IsADirectoryError):
        return Problem("is-folder", "This is a folder, not a file.", Place(name), "Name a file inside it.")
    reason = error.strerror or "it cannot be read"
    return Problem("unreadable", f"The file cannot be read: {reason}.", Place(name), "Check its permissions.")
