"""Which derived profiles are behind their base or their recipe: hashes and versions only, nothing is derived."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any, NamedTuple

from profilesmith.foundation.problem import Refused
from profilesmith.library.find import find
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.review.ledger_from_json import Stored
from profilesmith.review.wording import visible
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.read import LARGEST_TEXT
from profilesmith.workflows.rederive.memory import word_at
from profilesmith.workflows.rederive.request import base_words, recipe_words
from profilesmith.workflows.rederive.version import newer
from profilesmith.workflows.review import load_ledger

CURRENT, STALE, UNKNOWN = "current", "stale", "unknown"


class Age(NamedTuple):
    """One derived file. behind: what is newer; unknown: what could not be judged. Both in words."""

    file: str
    behind: tuple[str, ...] = ()
    unknown: tuple[str, ...] = ()

    @property
    def state(self) -> str:
        return UNKNOWN if self.unknown else STALE if self.behind else CURRENT

    def sentence(self) -> str:
        told = "; ".join((*self.behind, *self.unknown))
        return visible(f"{self.file}: {self.state}{f': {told}' if told else ''}")

    def data(self) -> dict[str, Any]:
        return {"file": self.file, "state": self.state, "behind": list(self.behind), "unknown": list(self.unknown)}


class _Seen:
    """Hashes and versions that were looked up already: forty profiles mostly share a base and a recipe."""

    def __init__(self) -> None:
        self.hashes: dict[Path, str] = {}
        self.versions: dict[tuple[str, Path | None], tuple[str, str]] = {}

    def sha256(self, path: Path) -> str:
        """A file's hash; "" when it cannot be read. A ledger may name anything: only plain files are opened."""
        if path not in self.hashes:
            self.hashes[path] = ""
            with suppress(OSError, ValueError):
                if path.is_file() and path.stat().st_size <= LARGEST_TEXT:
                    self.hashes[path] = hashlib.sha256(path.read_bytes()).hexdigest()
        return self.hashes[path]

    def recipe(self, word: str, library: Path | None) -> tuple[str, str]:
        """A recipe's (name, version) as it is now; "" for both when it cannot be read."""
        key = (word, library)
        if key not in self.versions:
            path, _ = find(word, "recipe", library)
            recipe = load_recipe(path, str(path), load_vocabulary())[0] if path else None
            self.versions[key] = (recipe.name, recipe.version) if recipe else ("", "")
        return self.versions[key]


def check_all(derived: Sequence[str], onto: Sequence[str], library: Path | None) -> list[Age]:
    """The age of each file, in the order in which they were named. onto: bases to hold all of them against; () for the ledgers' own."""
    seen = _Seen()
    return [_check(name, onto, library, seen) for name in derived]


def _check(name: str, onto: Sequence[str], library: Path | None, seen: _Seen) -> Age:
    try:
        stored = load_ledger(name)
    except Refused as refused:
        return Age(name, unknown=tuple(problem.message for problem in refused.problems))
    folder = Path(name).parent
    behind: list[str] = []
    unknown: list[str] = []
    for told, is_known in (*_bases(stored, folder, onto, seen), *_recipes(stored, folder, library, seen)):
        (behind if is_known else unknown).append(told)
    if not Path(name).is_file():
        unknown.insert(0, "the derived file is gone")
    return Age(name, tuple(behind), tuple(unknown))


def _bases(stored: Stored, folder: Path, onto: Sequence[str], seen: _Seen) -> Iterator[tuple[str, bool]]:
    """(what is to be said, whether it is known to be behind)."""
    paths = [Path(base) for base in onto] or base_words(stored, folder)
    files = stored.data["files"]
    if len(paths) != len(files):
        yield f"it came from {len(files)} bases, --onto names {len(paths)}", False
        return
    for path, item in zip(paths, files, strict=True):
        found = seen.sha256(path)
        if not found:
            yield f"the base {path} cannot be read (name it with --onto)", False
        elif found != item.get("sha256"):
            yield f"the base {path} has changed", True


def _recipes(stored: Stored, folder: Path, library: Path | None, seen: _Seen) -> Iterator[tuple[str, bool]]:
    call = stored.data.get("call", {})
    place = library or (Path(word_at(folder, call["library"])) if "library" in call else None)
    for word, use in zip(recipe_words(stored, folder), stored.ledger.recipes, strict=True):
        name, version = seen.recipe(word, place)
        if name != use.name:
            yield f"the recipe {use.name} is not found (name its library with --library)", False
        elif newer(version, use.version):
            yield f"recipe {name} {use.version} → {version}", True


def lines(ages: Sequence[Age]) -> list[str]:
    """One line a file."""
    return [age.sentence() for age in ages]


def exit_code(ages: Sequence[Age]) -> int:
    """0 all current, 1 some stale, 2 some could not be judged."""
    states = {age.state for age in ages}
    return 2 if UNKNOWN in states else 1 if STALE in states else 0
