"""A derivation's ledger as a file: what the review is made from, and what it takes to make the derivation again.

Members that only such a file has. ``outputs``: names and hashes of the new texts. ``call``: the files and names that were
asked for. ``made``: each output's text as the recipes alone made it, before any hand edit. Only against that
text can an added line, a lost comment or a changed key that the map does not know be told from the base's own; and it
stays the recipes' text when a re-derived file carries hand edits, so that they are carried on the next time too.
It is packed (zlib, base64): a text of 150 keys takes some 2 kB of a ledger of 40 kB. Texts beyond 2 MB are left out;
then, as with older ledgers, settings are merged from the ledger's values and what cannot be told is named.
"""

from __future__ import annotations

import hashlib
from binascii import Error, a2b_base64, b2a_base64
from collections.abc import Mapping, Sequence
from typing import Any
from zlib import compress, decompressobj, error

from profilesmith.engine.derive import Derivation
from profilesmith.engine.source import Call
from profilesmith.recipe.recipe import Recipe
from profilesmith.review.render.json import json_text

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


def ledger_bytes(derivation: Derivation, names: Sequence[str], key_map_file: str = "") -> bytes:
    """The file. names: of the outputs; key_map_file: the map as seen from the ledger, "" where it is known by its name."""
    texts = derivation.made or derivation.outputs
    outputs = zip(names, derivation.outputs, strict=True)
    data = {
        **derivation.review.data,
        "outputs": [{"name": name, "sha256": hashlib.sha256(raw).hexdigest()} for name, raw in outputs],
        **({"key_map_file": key_map_file} if key_map_file else {}),
        "made": [pack(text) for text in texts],
        "recipes": with_hashes(derivation.review.data["recipes"], derivation.recipes),
    }
    if derivation.made and derivation.made != derivation.outputs:
        data["written"] = [pack(text) for text in derivation.outputs]
    if derivation.call:
        data["call"] = call_json(derivation.call)
    return json_text(data).encode()


def call_json(call: Call) -> dict[str, Any]:
    """What was asked for, as data."""
    data: dict[str, Any] = {
        "bases": list(call.bases),
        "key_map": call.key_map,
        "recipes": list(call.recipes),
        "facts": list(call.facts),
        "answers": dict(call.answers),
        "follow_literals": call.follow_literals,
    }
    return {**data, "library": call.library} if call.library else data


def with_hashes(uses: Sequence[Mapping[str, Any]], recipes: Sequence[Recipe]) -> list[dict[str, Any]]:
    """A ledger's recipes, each with the hash of its file, so that a change without a new version is found."""
    found = []
    for use, recipe in zip(uses, recipes, strict=True):
        found.append({**use, "sha256": recipe.sha256} if recipe.sha256 else dict(use))
    return found
