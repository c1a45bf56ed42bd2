"""The files that a ledger remembers, as seen from the folder that it lies in, and back."""

from __future__ import annotations

import os
from pathlib import Path

from profilesmith.foundation.paths import names_a_file, seen_from
from profilesmith.ledger import Call


def call_from(call: Call, folder: Path) -> Call:
    """What was asked for, with every file as seen from the ledger's folder."""
    return call._replace(
        bases=tuple(_from(folder, base) for base in call.bases),
        key_map=_word(folder, call.key_map),
        recipes=tuple(_word(folder, name) for name in call.recipes),
        facts=tuple(_word(folder, name) for name in call.facts),
        library=_from(folder, call.library) if call.library else "",
    )


def _word(folder: Path, name: str) -> str:
    """A name in a library as it is, a file as seen from the ledger."""
    is_file = names_a_file(name) or os.path.exists(name)
    return _from(folder, name) if is_file else name


def _from(folder: Path, name: str) -> str:
    path = Path(seen_from(name, folder)).as_posix()
    return path if "/" in path or Path(path).suffix else f"./{path}"


def word_at(folder: Path, name: str) -> str:
    """A word of a stored call, to be used from here."""
    is_file = "/" in name or bool(Path(name).suffix)
    return os.path.normpath(folder / name) if is_file else name
