"""Files of ours from a disk: the bytes, bounded, or why there are none. What stands in them is read elsewhere.
Their names are as people write them, on systems with one root and on those with drives.
"""

from __future__ import annotations

import errno
import os
import stat
from itertools import islice
from pathlib import Path, PurePath, PureWindowsPath
from typing import BinaryIO

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, nearest
from profilesmith.foundation.toml_mistakes import LARGEST_FILE
from profilesmith.foundation.toml_table import TomlTable, parse_toml

PIECE = 65_536  # read at a time: a file says how large it is only by ending, and room for more takes longer to get
MOST_BESIDE = 500  # names of a folder that are compared with a misspelled one


def seen_from(path: str | Path, folder: str | Path) -> str:
    """A path as seen from a folder; the whole path where none leads there, as from one drive to another."""
    try:
        return os.path.relpath(path, folder)
    except ValueError:
        return os.path.abspath(path)


def names_a_file(word: str) -> bool:
    """Whether a word is a file's name, not a name to be looked up: it has an ending, or a folder before it."""
    return "/" in word or os.sep in word or bool(PurePath(word).suffix)


def is_on_a_drive(text: str) -> bool:
    """Whether a path begins with a drive and no root behind it (``D:x``): on such systems it leads anywhere."""
    path = PureWindowsPath(text)
    return bool(path.drive) and not path.root


def read_toml(path: Path, name: str, form: str, newest: int = 1) -> tuple[TomlTable | None, list[Problem]]:
    """Read a file of ours. ``form`` is the word for it ("recipe"); ``newest`` the format this version knows."""
    raw = read_bounded(path, name)
    return (None, [raw]) if isinstance(raw, Problem) else parse_toml(raw, name, form, newest)


def read_bounded(path: Path, name: str) -> bytes | Problem:
    """A file's bytes, or why there are none. Of one that is too large a byte more than ``parse_toml`` takes."""
    try:
        must_be_plain(path)
        with path.open("rb") as stream:
            return at_most(stream, LARGEST_FILE + 1)
    except (OSError, ValueError) as error:  # ValueError: a name with a zero byte
        return cannot_read(name, error if isinstance(error, OSError) else FileNotFoundError())


def at_most(stream: BinaryIO, most: int) -> bytes:
    """What a stream holds, up to some bytes, read piece by piece: a pipe has no size to ask for."""
    pieces = []
    while most > 0 and (piece := stream.read(min(PIECE, most))):
        pieces.append(piece)
        most -= len(piece)
    return b"".join(pieces)


def must_be_plain(path: Path) -> None:
    """Raises OSError for what is no plain file, before it is opened: a pipe never begins, a device never ends."""
    mode = os.stat(path).st_mode
    if stat.S_ISDIR(mode):
        raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR))
    if not stat.S_ISREG(mode):
        raise OSError(errno.EINVAL, "it is a pipe or a device, and no plain file")


def no_such_file(name: str, otherwise: str = "Check the name and the folder.") -> Problem:
    """The problem of a name that leads to nothing, with the nearest name beside it."""
    path = Path(name)
    try:
        beside = [item.name for item in islice(path.parent.iterdir(), MOST_BESIDE)]
    except (OSError, ValueError):
        beside = []
        if path.parent != path and not _there(path.parent):
            otherwise = f"The folder {str(path.parent)!r} is not there: check its name."
    near = nearest(path.name, beside)
    hint = f"Did you mean {str(path.parent / near)!r}?" if near else otherwise
    return Problem("no-file", "There is no such file.", Place(name), hint)


def _there(folder: Path) -> bool:
    try:
        return folder.exists()
    except (OSError, ValueError):
        return False


def cannot_read(name: str, error: OSError) -> Problem:
    """The problem for a file that cannot be opened."""
    if isinstance(error, FileNotFoundError):
        return no_such_file(name)
    if isinstance(error, IsADirectoryError):
        return Problem("is-folder", "This is a folder, not a file.", Place(name), "Name a file inside it.")
    reason = error.strerror or "it cannot be read"
    if error.errno == errno.EINVAL:
        return Problem("no-plain-file", f"The file cannot be read: {reason}.", Place(name), "Save it as a file first.")
    return Problem("unreadable", f"The file cannot be read: {reason}.", Place(name), "Check its permissions.")
