"""What a library holds: recipes with their evidence, key maps, facts and reference profiles, one line each."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from profilesmith.evidence.tally import short
from profilesmith.library.library import Library, ReferenceProfile, inside
from profilesmith.library.open_files import open_facts, open_key_map, open_recipe
from profilesmith.lint.names import files_of
from profilesmith.review.wording import visible
from profilesmith.workflows.command import command
from profilesmith.workflows.evidence_of import tally_of
from profilesmith.workflows.library.folder import open_library

UNREAD = "cannot be read: see '{}'"
Row = tuple[str, ...]


def list_library(folder: Path | None) -> str:
    """The whole library as text. Raises Refused for a folder that is no library."""
    unread = UNREAD.format(command("library check", folder))
    library = open_library(folder)
    lines = [
        f"{library.name}: {library.about or 'a library'}",
        f"licence {library.licence}; kept by {', '.join(library.keepers) or 'nobody'}",
    ]
    parts = (
        ("Recipes", [_recipe(path, library, unread) for path in _files(library, "recipe")]),
        ("Key maps", [_key_map(path, unread) for path in _files(library, "key map")]),
        ("Facts", [_facts(path, unread) for path in _files(library, "facts")]),
        ("Reference profiles", [_profile(profile) for profile in library.profiles]),
    )
    for title, rows in parts:
        lines += ["", title, *(_aligned(rows) or ["  none"])]
    return "\n".join(visible(line) for line in lines) + "\n"


def _files(library: Library, kind: str) -> Iterator[Path]:
    return (path for path in files_of(library.folder, kind) if inside(library.folder, path))


def _recipe(path: Path, library: Library, unread: str) -> Row:
    recipe, _ = open_recipe(path)
    if recipe is None:
        return path.stem, unread
    tally, problems = tally_of(recipe, library.folder)
    evidence = "evidence cannot be read" if problems else short(tally)
    return path.stem, recipe.version, _many(len(recipe.examples), "example"), evidence, recipe.title


def _key_map(path: Path, unread: str) -> Row:
    key_map, _ = open_key_map(path)
    return (path.stem, _many(len(key_map.bindings), "setting"), key_map.about) if key_map else (path.stem, unread)


def _facts(path: Path, unread: str) -> Row:
    facts, problems = open_facts([(path, str(path))])
    if problems:
        return path.stem, unread
    subjects = dict.fromkeys(name.partition(".")[0] for name in facts)
    return path.stem, _many(len(facts), "fact"), f"on {' and '.join(subjects) or 'nothing'}"


def _profile(profile: ReferenceProfile) -> Row:
    facts = f", facts {', '.join(profile.facts)}" if profile.facts else ""
    return profile.name, ", ".join(profile.texts), f"map {profile.key_map}{facts}"


def _many(count: int, word: str) -> str:
    return f"{count} {word}{'' if count == 1 else 's'}"


def _aligned(rows: list[Row]) -> list[str]:
    """Columns as wide as their widest entry; the last of a row is as long as it is, and widens none."""
    widths = [
        max((len(row[at]) for row in rows if at < len(row) - 1), default=0)
        for at in range(max(map(len, rows), default=0))
    ]
    return [
        "  " + "  ".join((*(f"{cell:<{width}}" for cell, width in zip(row[:-1], widths, strict=False)), row[-1]))
        for row in rows
    ]
