"""What a library holds, one line each: recipes with their evidence, key maps, facts and reference profiles."""

from __future__ import annotations

from pathlib import Path

from profilesmith.evidence.tally import short
from profilesmith.facts.facts import Facts
from profilesmith.foundation.words import plural
from profilesmith.library.library import ReferenceProfile
from profilesmith.review.render.command import command
from profilesmith.review.wording import visible
from profilesmith.translation.key_map import KeyMap
from profilesmith.workflows.library.contents import HeldRecipe, LibraryContents

UNREAD = "cannot be read: see '{}'"
Row = tuple[str, ...]


def contents_text(contents: LibraryContents, folder: Path | None) -> str:
    """The whole library as text. folder: as it was named."""
    unread = UNREAD.format(command("library check", folder))
    library = contents.library
    lines = [
        f"{library.name}: {library.about or 'a library'}",
        f"licence {library.licence}; kept by {', '.join(library.keepers) or 'nobody'}",
    ]
    parts = (
        ("Recipes", [_recipe(item, unread) for item in contents.recipes]),
        ("Key maps", [_key_map(name, item, unread) for name, item in contents.key_maps.items()]),
        ("Facts", [_facts(name, item, unread) for name, item in contents.facts.items()]),
        ("Reference profiles", [_profile(profile) for profile in library.profiles]),
    )
    for title, rows in parts:
        lines += ["", title, *(_aligned(rows) or ["  none"])]
    return "\n".join(visible(line) for line in lines) + "\n"


def _recipe(item: HeldRecipe, unread: str) -> Row:
    if item.recipe is None:
        return item.name, unread
    evidence = "evidence cannot be read" if item.tally is None else short(item.tally)
    return item.name, item.recipe.version, plural(len(item.recipe.examples), "example"), evidence, item.recipe.title


def _key_map(name: str, key_map: KeyMap | None, unread: str) -> Row:
    return (name, plural(len(key_map.bindings), "setting"), key_map.about) if key_map else (name, unread)


def _facts(name: str, facts: Facts | None, unread: str) -> Row:
    if facts is None:
        return name, unread
    subjects = dict.fromkeys(fact.partition(".")[0] for fact in facts)
    return name, plural(len(facts), "fact"), f"on {' and '.join(subjects) or 'nothing'}"


def _profile(profile: ReferenceProfile) -> Row:
    facts = f", facts {', '.join(profile.facts)}" if profile.facts else ""
    return profile.name, ", ".join(profile.texts), f"map {profile.key_map}{facts}"


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
