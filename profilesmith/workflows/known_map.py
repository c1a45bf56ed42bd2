"""Which key map a derived file was made with: its ledger knows, so that a person need not name it again."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused
from profilesmith.ledger.place import ledger_beside
from profilesmith.review.render.command import command
from profilesmith.workflows.derived_file import load_ledger
from profilesmith.workflows.request_again import stored_map


class KnownMap(NamedTuple):
    """path: of the map. text: the derived file whose ledger names it."""

    path: str
    text: str


def known_map(texts: Sequence[str]) -> KnownMap:
    """The map of the first of some texts that has a ledger with one that is there.

    Raises Refused when none has.
    """
    missed: list[tuple[str, str]] = []
    for text in texts:
        if not os.path.isfile(ledger_beside(Path(text))):
            continue
        stored = load_ledger(text)
        named, path = stored.file.key_map_file, stored_map(stored, Path(text).parent)
        if path:
            return KnownMap(str(path), text)
        missed += [(text, named)] if named else []
    raise Refused([no_key_map(texts, missed)])


def no_key_map(texts: Sequence[str], missed: Sequence[tuple[str, str]] = ()) -> Problem:
    """The problem of a call that names no map: how to have one proposed for these very texts.

    missed: texts with the maps that their ledgers name, which are not there.
    """
    call = command("keymap suggest", *texts, "-o", "my-bench.toml")
    hint = f"Name it with --keymap K; '{call}' proposes one. A file that 'derive' wrote knows its own."
    message = " ".join(
        [
            "No key map is named.",
            *(f"The ledger beside {text} names the map {named!r}, which is not there." for text, named in missed),
        ]
    )
    return Problem("no-keymap", message, Place("--keymap"), hint)
