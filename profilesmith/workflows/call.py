"""The files that a ledger remembers, as seen from the folder that it lies in, and back."""

from __future__ import annotations

import os
from pathlib import Path

from profilesmith.foundation.paths import names_a_file, seen_from
from profilesmith.ledger import Call


class View:
    """Files as seen from a ledger's folder. Most lie in a few folders, each of which is looked up once."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._folders: dict[str, str] = {}
        self._words: dict[str, str] = {}

    def path(self, name: str) -> str:
        """A file's way from the folder."""
        head, tail = os.path.split(name)
        if tail in ("", os.curdir, os.pardir):
            return seen_from(name, self.folder)
        if head not in self._folders:
            self._folders[head] = seen_from(head or os.curdir, self.folder)
        way = self._folders[head]
        return tail if way == os.curdir else os.path.join(way, tail)

    def file(self, name: str) -> str:
        """The same as a ledger says it: it can be told from a name in a library."""
        path = Path(self.path(name)).as_posix() if os.sep != "/" else self.path(name)
        return path if "/" in path or Path(path).suffix else f"./{path}"

    def word(self, name: str) -> str:
        """A name in a library as it is, a file as seen from the ledger."""
        if name not in self._words:
            self._words[name] = self.file(name) if names_a_file(name) or os.path.exists(name) else name
        return self._words[name]


def call_from(call: Call, view: View) -> Call:
    """What was asked for, with every file as seen from the ledger's folder."""
    return call._replace(
        bases=tuple(map(view.file, call.bases)),
        key_map=view.word(call.key_map),
        recipes=tuple(map(view.word, call.recipes)),
        facts=tuple(map(view.word, call.facts)),
        library=view.file(call.library) if call.library else "",
    )


def word_at(folder: Path, name: str) -> str:
    """A word of a stored call, to be used from here."""
    is_file = "/" in name or bool(Path(name).suffix)
    return os.path.normpath(folder / name) if is_file else name
