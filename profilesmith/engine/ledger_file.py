"""A derivation's ledger as a file: what the review is made from, and what it takes to make the derivation again.

Members that only such a file has: ``outputs``, names and hashes of the new texts; ``made`` and ``written``, copies of them
(``ledger/packed.py`` says why); ``call``, the files and names that were asked for.
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import Any

from profilesmith.engine.derive import Derivation
from profilesmith.engine.source import Call
from profilesmith.ledger.json_text import json_text
from profilesmith.ledger.packed import pack
from profilesmith.recipe.recipe import Recipe

AS_MAPPED = "map"
"""What became of shares: as the map says."""


def ledger_bytes(derivation: Derivation, names: Sequence[str], key_map_file: str = "") -> bytes:
    """The file. names: of the outputs; key_map_file: the map as seen from the ledger, "" where it is known by its name."""
    texts = derivation.made or derivation.outputs
    outputs = zip(names, derivation.outputs, strict=True)
    data = {
        **derivation.review.data,
        "outputs": [{"name": name, "sha256": hashlib.sha256(raw).hexdigest()} for name, raw in outputs],
        **({"key_map_file": key_map_file} if key_map_file else {}),
        "made": [pack(text) for text in texts],
        "recipes": with_texts(derivation.review.data["recipes"], derivation.recipes),
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
        "shares": call.shares or AS_MAPPED,
    }
    if call.laid:
        data["laid"] = [{"name": source.name, "text": pack(source.raw)} for source in call.laid]
    return {**data, "library": call.library} if call.library else data


def with_texts(uses: Sequence[Mapping[str, Any]], recipes: Sequence[Recipe]) -> list[dict[str, Any]]:
    """A ledger's recipes, each with its file's text and hash: so that a change without a new version is found, and told."""
    return [
        {**use, "sha256": hashlib.sha256(recipe.raw).hexdigest(), "text": _packed(recipe.raw)}
        if recipe.raw
        else dict(use)
        for use, recipe in zip(uses, recipes, strict=True)
    ]


_packed = lru_cache(maxsize=32)(pack)
"""The derivations of one run mostly share a recipe."""
