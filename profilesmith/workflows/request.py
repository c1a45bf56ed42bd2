"""What a user asks for: files and names as they were given on the command line or by a caller.

The files that a ledger remembers are named as seen from the folder that it lies in.
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType

from profilesmith.checks.case import UNKNOWN, Measured
from profilesmith.engine.read import Source
from profilesmith.facts.facts import Facts
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.read_file import names_a_file, seen_from
from profilesmith.ledger import Call
from profilesmith.ledger.history import AS_MAPPED, Laid
from profilesmith.ledger.packed import pack


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


class Request(NamedTuple):
    """bases: one or several files of one machine. key_map, recipes: a file or a name in a library.

    shares: what becomes of shares whose reference moves, "keep" or "follow"; "" for what the map says.
    answers: input name -> text as typed. library: a folder to look in before the shipped recipes.
    measured: what motion files tell of the print.
    laid: recipes of this profile alone, over the others, kept in its ledger; None: those that the ledger has.
    held: facts that are known already, from a ledger; whatever else says something of one goes before it.
    """

    bases: tuple[str, ...]
    key_map: str
    recipes: tuple[str, ...] = ()
    facts: tuple[str, ...] = ()
    answers: Mapping[str, str] = MappingProxyType({})
    library: Path | None = None
    follow_literals: bool = False
    shares: str = ""
    measured: Measured = UNKNOWN
    laid: tuple[Source, ...] | None = None
    held: Facts = {}  # noqa: RUF012 - a view of a dict cannot be sent to another process; nobody writes into it

    def call(self) -> Call:
        """In words, for the ledger."""
        return Call(
            bases=self.bases,
            key_map=self.key_map,
            recipes=self.recipes,
            facts=self.facts,
            answers=dict(self.answers),
            library="" if self.library is None else str(self.library),
            follow_literals=self.follow_literals,
            shares=self.shares or AS_MAPPED,  # type: ignore[arg-type]
            laid=tuple(Laid(source.name, pack(source.raw)) for source in self.laid or ()),
        )
