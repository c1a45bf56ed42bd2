"""Which key map a derived file was made with: its ledger knows, so that a person need not name it again."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused
from profilesmith.ledger.place import ledger_beside
from profilesmith.review.command import command
from profilesmith.workflows.derived_file import load_ledger
from profilesmith.workflows.request_again import stored_map


def known_map(texts: Sequence[str]) -> tuple[str, str]:
    """The map of the first of some texts that has a ledger with one that is there, and a sentence on it.

    Raises Refused when none has.
    """
    missed = []
    for text in texts:
        if not os.path.isfile(ledger_beside(Path(text))):
            continue
        stored = load_ledger(text)
        named, path = stored.file.key_map_file, stored_map(stored, Path(text).parent)
        if path:
            return str(path), f"The key map is {path}, as the ledger beside {text} says."
        missed.append(f"The ledger beside {text} names the map {named!r}, which is not there." if named else "")
    raise Refused([no_key_map(texts, *filter(None, missed))])


def no_key_map(texts: Sequence[str], *missed: str) -> Problem:
    """The problem of a call that names no map: how to have one proposed for these very texts."""
    call = command("keymap suggest", *texts, "-o", "my-bench.toml")
    hint = f"Name it with --keymap K; '{call}' proposes one. A file that 'derive' wrote knows its own."
    return Problem("no-keymap", " ".join(["No key map is named.", *missed]), Place("--keymap"), hint)
