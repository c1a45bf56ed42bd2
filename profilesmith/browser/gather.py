"""What of a library, with what ships, goes into the page."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from profilesmith.browser.make_page import PageShelf
from profilesmith.foundation.problem import Problem
from profilesmith.foundation.read_file import read_bounded
from profilesmith.library.find import names, shipped
from profilesmith.library.library import inside, load_library
from profilesmith.library.open_files import open_facts, open_key_map, open_recipe, shown_name
from profilesmith.workflows.troubles import FOLDER as TROUBLES
from profilesmith.workflows.troubles import known_troubles

EXAMPLE, ITS_MAP = "demo/base.settings", "demo/keymap.toml"


def gather(folder: Path | None) -> PageShelf:
    """The recipes, maps and facts that read; what does not is for 'library check' to tell. folder: None for what
    ships.
    """
    library = load_library(folder)[0] if folder else None
    example = shipped() / EXAMPLE
    return PageShelf(
        name=library.name if library else "",
        recipes=tuple(_item(word, path) for word, path in names("recipe", folder) if open_recipe(path)[0]),
        maps=(
            *(_item(word, path) for word, path in names("key map", folder) if open_key_map(path)[0]),
            _item("keymap.toml", shipped() / ITS_MAP),
        ),
        facts=tuple(_item(word, path) for word, path in names("facts", folder) if not open_facts([(path, word)])[1]),
        troubles=tuple(_item(path.name, path) for path in _troubles(folder)),
        example={"name": example.name, "text": example.read_bytes().decode()} if example.is_file() else None,
    )


def _troubles(folder: Path | None) -> list[Path]:
    """The files with which a library adds to the troubles; what of them does not read is refused here."""
    known_troubles(folder)
    return [path for path in sorted((folder / TROUBLES).glob("*.toml")) if inside(folder, path)] if folder else []


def _item(word: str, path: Path) -> Mapping[str, str]:
    raw = read_bounded(path, word)
    assert not isinstance(raw, Problem), "it was read a moment ago"
    return {"word": word, "name": shown_name(path), "text": raw.decode("utf-8")}
