"""What was asked for, as a ledger remembers it: every file as seen from the ledger's folder, names of a library as they are."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Sequence
from functools import lru_cache
from pathlib import Path

from profilesmith.ledger import Call, RecipeUse
from profilesmith.ledger.packed import pack
from profilesmith.recipe.recipe import Recipe
from profilesmith.workflows.request import Request

AS_MAPPED = "map"
"""What became of shares: as the map says."""


def call(request: Request, folder: Path) -> Call:
    """The call. folder: where the ledger lies."""
    return Call(
        bases=tuple(_from(folder, base) for base in request.bases),
        key_map=_word(folder, request.key_map),
        recipes=tuple(_word(folder, name) for name in request.recipes),
        facts=tuple(_word(folder, name) for name in request.facts),
        answers=dict(request.answers),
        follow_literals=request.follow_literals,
        shares=request.shares or AS_MAPPED,  # type: ignore[arg-type]
        library="" if request.library is None else _from(folder, str(request.library)),
    )


def with_texts(uses: Sequence[RecipeUse], recipes: Sequence[Recipe]) -> tuple[RecipeUse, ...]:
    """A ledger's recipes, each with its file's text and hash: so that a change without a new version is found, and told."""
    return tuple(
        _with_text(use, Path(recipe.file)) if recipe.file else use for use, recipe in zip(uses, recipes, strict=True)
    )


def _with_text(use: RecipeUse, path: Path) -> RecipeUse:
    try:
        raw = path.read_bytes()
    except OSError:
        return use
    return use._replace(sha256=hashlib.sha256(raw).hexdigest(), text=_packed(raw))


_packed = lru_cache(maxsize=32)(pack)
"""The derivations of one run mostly share a recipe."""


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
