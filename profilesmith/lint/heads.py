"""R11x: the head of a recipe: licence, name, what it says of others."""

import re
from collections.abc import Iterator

from profilesmith.foundation.problem import did_you_mean
from profilesmith.lint.rule import Fault, LintRule
from profilesmith.lint.subjects import RecipeFile

# The shape of an SPDX licence expression (SPDX specification 2.3, annex D), not the list of ids, which grows.
_ID = r"[A-Za-z0-9][A-Za-z0-9.-]{0,62}\+?"
LICENCE = re.compile(rf"{_ID}(?: (?:AND|OR|WITH) {_ID}){{0,7}}")
LICENCE_FIX = 'Write the short id of a licence in the SPDX list, such as licence = "CC0-1.0".'
LICENCE_WHY = "Without a licence nobody may pass a file on or improve it."


def licence_fault(licence: str, line: int | None) -> Iterator[Fault]:
    """What is wrong with a licence."""
    if not licence:
        yield Fault("No licence is given.", line)
    elif not LICENCE.fullmatch(licence):
        yield Fault(f"The licence {licence[:60]!r} is no short id of a licence.", line)


def _licence(file: RecipeFile) -> Iterator[Fault]:
    yield from licence_fault(file.recipe.licence, _line(file, "licence"))


def _title(file: RecipeFile) -> Iterator[Fault]:
    if not file.recipe.title.strip():
        yield Fault("The recipe has no title.", _line(file, "title"))


def _file_name(file: RecipeFile) -> Iterator[Fault]:
    if file.recipe.name and file.recipe.name != file.path.stem:  # a missing name is the loader's matter
        yield Fault(f"The recipe is called {file.recipe.name!r}, its file {file.path.name!r}.", _line(file, "name"))


def _shadows(file: RecipeFile) -> Iterator[Fault]:
    name = file.recipe.name
    same = file.path.resolve()
    others = [path for path in file.names.recipes.get(name.casefold(), ()) if path.resolve() != same]
    ships = next((path for known, path in file.names.shipped.items() if known.casefold() == name.casefold()), None)
    if others:
        yield Fault(f"{others[0]} is called {others[0].stem!r} too.", _line(file, "name"))
    elif ships is not None and not file.names.is_shipped and ships.resolve() != same:
        yield Fault(f"A recipe called {ships.stem!r} ships with the package.", _line(file, "name"))


def _companions(file: RecipeFile) -> Iterator[Fault]:
    for name in file.recipe.goes_with:
        if name == file.recipe.name:
            yield Fault("The recipe says that it goes with itself.", _line(file, "goes_with"))
        elif not file.names.has_recipe(name):
            known = [path.stem for paths in file.names.recipes.values() for path in paths]
            hint = did_you_mean(name, [*known[:1000], *file.names.shipped])
            yield Fault(f"There is no recipe {name!r} for it to go with.", _line(file, "goes_with"), hint)


def _line(file: RecipeFile, key: str) -> int | None:
    return file.lines.get(("recipe", key), file.lines.get(("recipe",)))


RULES = (
    LintRule("R110", "error", "The recipe has a licence", LICENCE_WHY, LICENCE_FIX, _licence, key="recipe.licence"),
    LintRule(
        "R111",
        "hint",
        "The recipe has a title",
        "A list of recipes shows the titles: by them a newcomer chooses.",
        'Add title = "...": what the recipe makes of what.',
        _title,
        key="recipe.title",
    ),
    LintRule(
        "R112",
        "error",
        "The recipe is called like its file",
        "People ask for the file's name and reviews show the recipe's: two names for one thing confuse both.",
        "Rename the file or the recipe.",
        _file_name,
        key="recipe.name",
    ),
    LintRule(
        "R113",
        "error",
        "No other recipe has the name",
        "A nearer recipe hides a farther one of the same name, and somebody would apply the wrong one.",
        "Choose a name of its own, such as with the club's name in front.",
        _shadows,
        key="recipe.name",
    ),
    LintRule(
        "R114",
        "error",
        "The recipes that it goes with exist",
        "A pair that is promised is tried; without its partner it cannot be.",
        "Correct the name in goes_with, or take it out.",
        _companions,
        key="recipe.goes_with",
    ),
)
