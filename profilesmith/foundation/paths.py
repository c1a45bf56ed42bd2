"""Names of files as people write them, on systems with one root and on those with drives."""

import os
from pathlib import Path, PurePath, PureWindowsPath


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
