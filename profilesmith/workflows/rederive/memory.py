"""What a ledger remembers so that its derivation can be made again on a newer base.

Two optional members, written beside the review's data. ``call``: the files and names that were asked for, as seen from
the ledger. ``made``: each output's text as the recipes alone made it, before any hand edit. Only against that
text can an added line, a lost comment or a changed key that the map does not know be told from the base's own; and it
stays the recipes' text when a re-derived file carries hand edits, so that they are carried on the next time too.
It is packed (zlib, base64): a text of 150 keys takes some 2 kB of a ledger of 40 kB. Texts beyond 2 MB are left out;
then, as with older ledgers, settings are merged from the ledger's values and what cannot be told is named.
"""

from __future__ import annotations

import os
from binascii import Error, a2b_base64, b2a_base64
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any
from zlib import compress, decompressobj, error

from profilesmith.recipe.recipe import Recipe
from profilesmith.workflows.request import Request

LARGEST = 2_000_000  # bytes of a text that is kept


def pack(raw: bytes) -> str:
    """A text as a word of a ledger; "" for one that is too large."""
    return "" if len(raw) > LARGEST else b2a_base64(compress(raw, 6), newline=False).decode("ascii")


def unpack(word: object) -> bytes | None:
    """The text again; None for anything that is no such word, or that would unpack to more than is ever packed."""
    if not isinstance(word, str):
        return None
    try:
        work = decompressobj()
        raw = work.decompress(a2b_base64(word.encode("ascii"), strict_mode=True), LARGEST + 1)
    except (Error, error, ValueError):
        return None
    return raw if work.eof and len(raw) <= LARGEST else None


def call(request: Request, folder: Path) -> dict[str, Any]:
    """What was asked for, with every file as seen from the ledger's folder."""
    found: dict[str, Any] = {
        "bases": [_from(folder, base) for base in request.bases],
        "key_map": _word(folder, request.key_map),
        "recipes": [_word(folder, name) for name in request.recipes],
        "facts": [_word(folder, name) for name in request.facts],
        "answers": dict(request.answers),
        "follow_literals": request.follow_literals,
    }
    if request.library is not None:
        found["library"] = _from(folder, str(request.library))
    return found


def with_hashes(uses: Sequence[Mapping[str, Any]], recipes: Sequence[Recipe]) -> list[dict[str, Any]]:
    """A ledger's recipes, each with the hash of its file, so that a change without a new version is found."""
    found = []
    for use, recipe in zip(uses, recipes, strict=True):
        found.append({**use, "sha256": recipe.sha256} if recipe.sha256 else dict(use))
    return found


def _word(folder: Path, name: str) -> str:
    """A name in a library as it is, a file as seen from the ledger."""
    is_file = bool(Path(name).suffix) or os.sep in name or os.path.exists(name)
    return _from(folder, name) if is_file else name


def _from(folder: Path, name: str) -> str:
    path = Path(os.path.relpath(name, folder)).as_posix()
    return path if "/" in path or Path(path).suffix else f"./{path}"


def word_at(folder: Path, name: str) -> str:
    """A word of a stored call, to be used from here."""
    is_file = "/" in name or bool(Path(name).suffix)
    return os.path.normpath(folder / name) if is_file else name
