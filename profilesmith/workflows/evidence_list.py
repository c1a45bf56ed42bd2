"""Evidence, listed: all records with their sums, by recipe, machine or spool."""

from __future__ import annotations

import json
from pathlib import Path

from profilesmith.evidence.groups import BY
from profilesmith.evidence.told import tally_json, tally_lines
from profilesmith.evidence.told_by import by_groups
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, did_you_mean, refuse_if
from profilesmith.library.find import names
from profilesmith.library.open_files import open_recipe
from profilesmith.recipe.recipe import Recipe
from profilesmith.review.wording import visible
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.evidence_of import tally_of
from profilesmith.workflows.read import read_recipes


class Listed(NamedTuple):
    """text: all records that could be read. problems: of the lines that could not."""

    text: str
    problems: tuple[Problem, ...]


def list_evidence(name: str, library: Path | None, form: str, by: str = "recipe") -> Listed:
    """All records, or those of a recipe, with their sums. Raises Refused for a wrong call.

    by: ``recipe``, or what the prints of all these recipes are summed up by: ``machine`` or ``spool``.
    """
    wrong = _not_known(by)
    recipes = _recipes(name, library, wrong)
    refuse_if(wrong)
    summed_up = [tally_of(recipe, library) for recipe in recipes]
    problems = tuple(problem for _, faults in summed_up for problem in faults)
    tallies = [summed for summed, _ in summed_up]
    if by in BY:
        text = by_groups(tallies, by, form == "json")
        return Listed("\n".join(map(visible, text.split("\n"))) if form != "json" else text, problems)
    if form == "json":
        return Listed(
            json.dumps([tally_json(summed, load_vocabulary()) for summed in tallies], ensure_ascii=False, indent=2)
            + "\n",
            problems,
        )
    known = [summed for summed in tallies if name or summed.records or summed.others or summed.withdrawn]
    text = "\n\n".join("\n".join(visible(line) for line in tally_lines(summed, load_vocabulary())) for summed in known)
    return Listed(f"{text}\n" if known else "" if problems else "No evidence is recorded yet.\n", problems)


def _not_known(by: str) -> list[Problem]:
    known = ("recipe", *BY)
    hint = did_you_mean(by, known, f"Write {', '.join(known[:-1])} or {known[-1]}.")
    return [] if by in known else [Problem("by", f"{by!r} is not one of {', '.join(known)}.", Place("--by"), hint)]


def _recipes(name: str, library: Path | None, problems: list[Problem]) -> list[Recipe]:
    if name:
        return read_recipes([name], library, problems)
    loaded = (open_recipe(path, str(path))[0] for _, path in names("recipe", library))
    return [recipe for recipe in loaded if recipe is not None]
