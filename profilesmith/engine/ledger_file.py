"""A derivation's ledger as a file: what the review is made from, and what it takes to make the derivation again.

Members that only such a file has: ``outputs``, names and hashes of the new texts; ``made`` and ``written``, copies of
them (``ledger/packed.py`` says why); ``call``, the files and names that were asked for.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from profilesmith.engine.derive import Derivation
from profilesmith.foundation.digest import sha256_hex
from profilesmith.ledger import FileHash, RecipeUse
from profilesmith.ledger.packed import pack
from profilesmith.ledger.plain_forms import Texts
from profilesmith.ledger.write import file_bytes
from profilesmith.recipe.recipe import Recipe


def ledger_bytes(
    derivation: Derivation, names: Sequence[str], key_map_file: str = "", texts: Texts | None = None
) -> bytes:
    """The file. names: of the outputs; key_map_file: the map as seen from the ledger, "" where it is known by its
    name; texts: those of the run's ledgers so far.
    """
    copies = derivation.made or derivation.outputs
    edited = derivation.made and derivation.made != derivation.outputs
    outputs = zip(names, derivation.outputs, strict=True)
    file = derivation.file._replace(
        outputs=tuple(FileHash(name, sha256_hex(raw)) for name, raw in outputs),
        key_map_file=key_map_file,
        key_map_sha256=derivation.translation.key_map.sha256,
        made=tuple(map(pack, copies)),
        written=tuple(map(pack, derivation.outputs)) if edited else (),
        recipes=with_texts(derivation.ledger.recipes, derivation.recipes),
        call=derivation.call,
    )
    return file_bytes(file, texts)


def with_texts(uses: Sequence[RecipeUse], recipes: Sequence[Recipe]) -> tuple[RecipeUse, ...]:
    """A ledger's recipes, each with its file's text and hash: so that a change without a new version is found, and
    told.
    """
    return tuple(
        use._replace(sha256=_hashed(recipe.raw), text=_packed(recipe.raw)) if recipe.raw else use
        for use, recipe in zip(uses, recipes, strict=True)
    )


_packed, _hashed = lru_cache(maxsize=32)(pack), lru_cache(maxsize=32)(sha256_hex)
"""The derivations of one run mostly share a recipe."""
