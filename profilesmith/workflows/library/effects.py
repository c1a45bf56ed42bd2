"""What a change of a library does to its reference profiles: every recipe on each of them, before and now.

Only what can come out otherwise is derived: a recipe or a profile whose bytes changed. A profile is its texts, its map
and its facts.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import lru_cache
from pathlib import Path

from profilesmith.foundation.digest import sha256_hex
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.library.find import names
from profilesmith.library.library import Library, ReferenceProfile, load_library
from profilesmith.library.open_files import open_recipe
from profilesmith.lint.names import files_of
from profilesmith.recipe.recipe import Recipe
from profilesmith.review.known_words import fact_words
from profilesmith.revision.outcomes import OutcomeDifference, ProfileOutcome, difference, outcome_of, untouched
from profilesmith.workflows.library.folder import Ground, ground
from profilesmith.workflows.library.starter import suits


class ChangedFile(NamedTuple):
    """A file that changed. kind: recipe, key map, facts or text. detail: what of it, where that is short; "" else."""

    kind: str
    name: str
    file: str
    detail: str = ""


class Effect(NamedTuple):
    """One recipe on one reference profile. version, before: of the recipe, before "" for a new one."""

    recipe: str
    profile: str
    causes: tuple[ChangedFile, ...]
    difference: OutcomeDifference
    version: str
    before: str = ""

    @property
    def is_any(self) -> bool:
        return any(self.difference)


class Side(NamedTuple):
    """A library's recipes and readable reference profiles. parts: for each profile its files, by kind and name, with
    their hashes.
    """

    recipes: Mapping[str, Path]
    grounds: Mapping[str, Ground]
    parts: Mapping[str, Mapping[tuple[str, str], tuple[str, str]]]


class LibrarySides(NamedTuple):
    """before, now: both laid out as folders."""

    before: Side
    now: Side


_SIDES: list[LibrarySides] = []  # one, in each process


def begin_sides(folders: tuple[str, str]) -> LibrarySides:
    """Read both libraries once in this process. folders: as it was, as it is; both were read before without a
    mistake.
    """
    before, now = (_side(Path(folder)) for folder in folders)
    _SIDES[:] = [LibrarySides(before, now)]
    _old.cache_clear()
    _recipe.cache_clear()
    return _SIDES[0]


def _side(folder: Path) -> Side:
    library, _ = load_library(folder)
    assert library is not None
    read = [(profile, ground(library, profile)[0]) for profile in library.profiles]
    return Side(
        {path.stem: path for path in files_of(folder, "recipe")},
        {profile.name: known for profile, known in read if known is not None},
        {profile.name: _parts(library, profile) for profile, known in read if known is not None},
    )


def _parts(library: Library, profile: ReferenceProfile) -> dict[tuple[str, str], tuple[str, str]]:
    maps, facts = (dict(names(kind, library.folder)) for kind in ("key map", "facts"))
    files = {("key map", profile.key_map): maps.get(profile.key_map)}
    files |= {("facts", name): facts.get(name) for name in profile.facts}
    files |= {("text", text): library.folder / text for text in profile.texts}
    return {key: (str(path), _hash(path)) for key, path in files.items() if path is not None}


def _hash(path: Path) -> str:
    return sha256_hex(path.read_bytes())


def effects_of(name: str) -> list[Effect]:
    """What comes out otherwise of one recipe of the library as it is now."""
    sides = _SIDES[0]
    path, was = sides.now.recipes[name], sides.before.recipes.get(name)
    is_same = was is not None and was.read_bytes() == path.read_bytes()
    causes = () if is_same else (ChangedFile("recipe", name, str(path)),)
    recipe, old = _recipe(path), _recipe(was) if was else None
    if recipe is None or (was is not None and old is None):
        return []  # the lint's matter
    effects = (
        _effect(profile, recipe, old, causes)
        for profile, where in sides.now.grounds.items()
        if profile in sides.before.grounds and suits((name,), where.is_example)
    )
    return [item for item in effects if item is not None and item.is_any]


def _effect(profile: str, recipe: Recipe, old: Recipe | None, causes: tuple[ChangedFile, ...]) -> Effect | None:
    sides = _SIDES[0]
    causes = (*causes, *_changed_parts(profile, sides))
    if not causes:
        return None
    where = sides.now.grounds[profile]
    new = outcome_of(where.translation, where.facts, recipe)
    if old is None:
        differs = difference(untouched(where.translation, where.facts), new, is_new=True)
        differs = differs._replace(
            stops=()
        )  # nothing stops that was before; that a new recipe does not suit is told elsewhere
    else:
        differs = difference(_old(profile, old.file), new)
    return Effect(recipe.name, profile, causes, differs, recipe.version, old.version if old else "")


@lru_cache(maxsize=4096)
def _old(profile: str, file: str) -> ProfileOutcome:
    where, recipe = _SIDES[0].before.grounds[profile], _recipe(Path(file))
    assert recipe is not None
    return outcome_of(where.translation, where.facts, recipe)


@lru_cache(maxsize=1024)
def _recipe(path: Path) -> Recipe | None:
    return open_recipe(path, str(path))[0]


def _changed_parts(profile: str, sides: LibrarySides) -> Iterator[ChangedFile]:
    """The files of a profile that differ, or are others now."""
    was, now = sides.before.parts[profile], sides.now.parts[profile]
    for key, (file, sha256) in now.items():
        if key not in was or was[key][1] != sha256:
            yield ChangedFile(*key, file, _facts_told(profile, sides) if key[0] == "facts" else "")
    yield from (ChangedFile(*key, file) for key, (file, _) in was.items() if key not in now)


def _facts_told(profile: str, sides: LibrarySides) -> str:
    """``machine.maximum_nozzle_temperature 220 °C; was 270 °C``; "" where no fact has another value."""
    old, new = (side.grounds[profile].facts for side in (sides.before, sides.now))
    return "; ".join(
        f"{name} {fact_words(name, new)}, was {fact_words(name, old)}"
        for name in sorted(old.keys() | new.keys())
        if (old[name].value if name in old else None) != (new[name].value if name in new else None)
    )
