"""Which key map a derived file was made with: its ledger knows, so that a person need not name it again."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused
from profilesmith.ledger.place import ledger_beside
from profilesmith.workflows.rederive.request import stored_map
from profilesmith.workflows.review import load_ledger


def known_map(texts: Sequence[str]) -> tuple[str, str]:
    """The map of the first of some texts that has a ledger with one that is there, and a sentence on it.

    Raises Refused when none has.
    """
    missed = []
    for text in texts:
        if not ledger_beside(Path(text)).is_file():
            continue
        stored = load_ledger(text)
        named, found = str(stored.data.get("key_map_file", "")), stored_map(stored, Path(text).parent)
        if found:
            return str(found), f"The key map is {found}, as the ledger beside {text} says."
        missed.append(f"The ledger beside {text} names the map {named!r}, which is not there." if named else "")
    hint = "Name it with --keymap K. It may be left out for a file that 'derive' wrote, with its ledger beside it."
    raise Refused(
        [Problem("no-keymap", " ".join(["No key map is named.", *filter(None, missed)]), Place("--keymap"), hint)]
    )
