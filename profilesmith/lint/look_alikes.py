"""Names that look alike: skeletons after Unicode Technical Standard 39, "Unicode Security Mechanisms", section 4.

Two names are confusable when their skeletons are equal. The data are Unicode's confusables as the package
``confusable-homoglyphs`` carries them: pairs of signs, not prototypes, so signs that are linked stand for one another
here.
"""

from __future__ import annotations

import json
import unicodedata
from collections.abc import Iterator, Mapping
from functools import cache, lru_cache
from importlib.resources import files
from typing import Any

from profilesmith.lint.rule import Fault, LintRule
from profilesmith.lint.subjects import FactsFile, KeyMapFile, RecipeFile

BESIDE_LATIN = {"ARMENIAN", "CHEROKEE", "CYRILLIC", "FULLWIDTH", "GREEK", "MATHEMATICAL"}
"""Scripts whose letters look like Latin ones; nobody needs both in one name."""
WHY = "Who reads a name must know which file it means; letters of other scripts can look like its own, down to the dot."
FIX = "Write the name with the letters of one script that are not another name's."


@cache
def _prototypes() -> Mapping[str, str]:
    """A sign, or a few, to the ones that stand for all that look so: ASCII where there are such."""
    table = json.loads(files("confusable_homoglyphs").joinpath("confusables.json").read_text(encoding="utf-8"))
    links = {sign: [item["c"] for item in items] for sign, items in table.items()}
    prototypes: dict[str, str] = {}
    for start in links:
        if start in prototypes:
            continue
        group, waiting = {start}, [start]
        while waiting:
            more = [other for other in links.get(waiting.pop(), ()) if other not in group]
            group.update(more)
            waiting += more
        best = min(group, key=lambda text: (not text.isascii(), not text.isalnum(), -len(text), text))
        prototypes |= dict.fromkeys(group, best)
    return prototypes


def skeleton(name: str) -> str:
    """What a name looks like, whatever it is written with; two that look alike have one skeleton."""
    plain = unicodedata.normalize("NFKD", name)  # forms of one letter, full width and others, are that letter
    return unicodedata.normalize("NFD", "".join(_prototypes().get(sign, sign) for sign in plain))


def looks_like_another(name: str) -> str:
    """The plain name that one with other letters looks like, or "". An honest name in one other script looks like
    none.
    """
    if name.isascii():
        return ""
    shape = skeleton(name)
    return shape if shape.isascii() else ""


def _mixed(name: str) -> str:
    """Letters of a second script among Latin ones, in words; "" where there are none."""
    scripts = {unicodedata.name(sign, "?").split(" ")[0] for sign in name if sign.isalpha()}
    words = ", ".join(word.capitalize() for word in sorted(scripts & BESIDE_LATIN))
    return f"Latin and {words} letters" if "LATIN" in scripts and words else ""


def name_faults(name: str, line: int | None) -> Iterator[Fault]:
    """What is wrong with a name by its letters alone."""
    plain, mixed = looks_like_another(name), _mixed(name)
    if plain:
        yield Fault(f"The name {name!a} looks like {plain!r} and is another.", line)
    elif mixed:
        yield Fault(f"The name {name!a} has {mixed}.", line)


def _recipe(file: RecipeFile) -> Iterator[Fault]:
    name, line = file.recipe.name, file.lines.get(("recipe", "name"))
    faults = list(name_faults(name, line))
    yield from faults
    twins = _by_skeleton((*file.names.recipes, *file.names.shipped)).get(skeleton(name.casefold()), ())
    twin = next((other for other in twins if other.casefold() != name.casefold()), "")
    if twin and not faults:
        yield Fault(f"The name {name!a} looks like {twin!a}, another recipe.", line)


@lru_cache(maxsize=4)
def _by_skeleton(names: tuple[str, ...]) -> Mapping[str, tuple[str, ...]]:
    """The names of a library by what they look like, worked out once for all of its recipes."""
    by_shape: dict[str, tuple[str, ...]] = {}
    for name in names:
        shape = skeleton(name.casefold())
        by_shape[shape] = (*by_shape.get(shape, ()), name)
    return by_shape


def _key_map(file: KeyMapFile) -> Iterator[Fault]:
    yield from name_faults(file.key_map.name, file.lines.get(("keymap", "name")))


def _facts(file: FactsFile) -> Iterator[Fault]:
    yield from name_faults(file.path.stem, None)


def _rule(number: str, find: Any) -> LintRule:
    return LintRule(number, "error", "No name looks like another", WHY, FIX, find)


RECIPES, KEY_MAPS, FACTS = (_rule("R115", _recipe),), (_rule("K113", _key_map),), (_rule("F113", _facts),)
