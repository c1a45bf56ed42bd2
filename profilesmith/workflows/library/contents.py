"""What a library holds: recipes with their evidence, key maps, facts and reference profiles, as far as they read."""

from __future__ import annotations

from pathlib import Path

from profilesmith.evidence.tally import Tally
from profilesmith.facts.facts import Facts
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.library.library import Library, inside
from profilesmith.library.open_files import open_facts, open_key_map, open_recipe
from profilesmith.lint.names import files_of
from profilesmith.recipe.recipe import Recipe
from profilesmith.translation.key_map import KeyMap
from profilesmith.workflows.evidence_of import tally_of
from profilesmith.workflows.library.folder import open_library


class HeldRecipe(NamedTuple):
    """recipe: None where it cannot be read. tally: of its prints, None where its evidence cannot be read."""

    name: str
    recipe: Recipe | None
    tally: Tally | None = None


class LibraryContents(NamedTuple):
    """key_maps, facts: name -> what the file holds, None where it cannot be read."""

    library: Library
    recipes: tuple[HeldRecipe, ...]
    key_maps: dict[str, KeyMap | None]
    facts: dict[str, Facts | None]


def contents_of(folder: Path | None) -> LibraryContents:
    """Raises Refused for a folder that is no library."""
    library = open_library(folder)
    return LibraryContents(
        library,
        tuple(_recipe(path, library) for path in _files(library, "recipe")),
        {path.stem: open_key_map(path)[0] for path in _files(library, "key map")},
        {path.stem: _facts(path) for path in _files(library, "facts")},
    )


def _files(library: Library, kind: str) -> list[Path]:
    return [path for path in files_of(library.folder, kind) if inside(library.folder, path)]


def _recipe(path: Path, library: Library) -> HeldRecipe:
    recipe, _ = open_recipe(path)
    if recipe is None:
        return HeldRecipe(path.stem, None)
    tally, problems = tally_of(recipe, library.folder)
    return HeldRecipe(path.stem, recipe, None if problems else tally)


def _facts(path: Path) -> Facts | None:
    facts, problems = open_facts([(path, str(path))])
    return None if problems else facts
