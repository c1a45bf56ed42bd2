"""All records of a library with their sums, by recipe, machine or spool."""

from __future__ import annotations

from pathlib import Path

from profilesmith.evidence.groups import BY
from profilesmith.evidence.tally import Tally
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, did_you_mean, refuse_if
from profilesmith.library.find import names
from profilesmith.library.open_files import open_recipe
from profilesmith.recipe.recipe import Recipe
from profilesmith.workflows.evidence_of import tally_of
from profilesmith.workflows.read import read_recipes


class ListedEvidence(NamedTuple):
    """tallies: of each recipe. problems: of the lines that could not be read. name, by: as they were asked for."""

    tallies: tuple[Tally, ...]
    problems: tuple[Problem, ...]
    name: str = ""
    by: str = "recipe"


def list_evidence(name: str, library: Path | None, by: str = "recipe") -> ListedEvidence:
    """All records, or those of a recipe, with their sums. Raises Refused for a wrong call.

    by: ``recipe``, or what the prints of all these recipes are summed up by: ``machine`` or ``spool``.
    """
    wrong = _not_known(by)
    recipes = _recipes(name, library, wrong)
    refuse_if(wrong)
    summed_up = [tally_of(recipe, library) for recipe in recipes]
    problems = tuple(problem for _, faults in summed_up for problem in faults)
    return ListedEvidence(tuple(tally for tally, _ in summed_up), problems, name, by)


def _not_known(by: str) -> list[Problem]:
    known = ("recipe", *BY)
    hint = did_you_mean(by, known, f"Write {', '.join(known[:-1])} or {known[-1]}.")
    return [] if by in known else [Problem("by", f"{by!r} is not one of {', '.join(known)}.", Place("--by"), hint)]


def _recipes(name: str, library: Path | None, problems: list[Problem]) -> list[Recipe]:
    if name:
        return read_recipes([name], library, problems)
    loaded = (open_recipe(path, str(path))[0] for _, path in names("recipe", library))
    return [recipe for recipe in loaded if recipe is not None]
