"""Evidence: a print that somebody judged is recorded in a library; what is recorded is listed and summed up."""

from __future__ import annotations

import datetime
import json
import os
import secrets
from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

from profilesmith.evidence.append_record import append_record
from profilesmith.evidence.file_name import safe_stem
from profilesmith.evidence.load_evidence import ENDING, FOLDER, Loaded, load_evidence
from profilesmith.evidence.of_derivation import derived_values, recorded_facts
from profilesmith.evidence.read_record import read_record
from profilesmith.evidence.record import Record, record_line
from profilesmith.evidence.tally import Tally, tally
from profilesmith.evidence.told import tally_json, tally_lines
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.library.find import libraries, names
from profilesmith.library.library import inside
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.recipe.recipe import Recipe
from profilesmith.review.wording import visible
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.derive import apply
from profilesmith.workflows.read import read_recipes
from profilesmith.workflows.request import Request
from profilesmith.write_files import write_whole

FORMS = ("terminal", "json")


class Judged(NamedTuple):
    """What a person says of a print, as typed. grades: adhesion -> good; by: "" for nobody's name; date: "" for today."""

    outcome: str
    grades: Mapping[str, str] = {}
    note: str = ""
    by: str = ""
    date: str = ""


class Added(NamedTuple):
    """left_out: sentences on facts that were not recorded. again: an equal record of that day is there already."""

    record: Record
    path: Path
    tally: Tally
    left_out: tuple[str, ...]
    again: bool


def add_evidence(request: Request, judged: Judged) -> Added:
    """Derive once more, and record what the recipe changed and how the print went. Raises Refused; then nothing was written."""
    folder = club_folder(request.library)
    _, recipes, facts, ledger = apply(request)
    refuse_if(ledger.problems)
    recipe = recipes[0]
    kept, left_out = recorded_facts(facts)
    record = Record(
        date=judged.date or datetime.date.today().isoformat(), recipe=recipe.name, version=recipe.version,
        outcome=judged.outcome, judged=judged.grades, facts=kept, values=derived_values(ledger, load_vocabulary()), mark=secrets.token_hex(4),  # type: ignore[arg-type]
        note=judged.note, by=judged.by,
    )  # fmt: skip
    # The one who writes and the one who reads hold to the same rules: what would be refused later is refused now.
    refuse_if(_read_back(record))
    path = evidence_path(folder, recipe.name)
    before = _load(folder, path)
    refuse_if(before.problems)
    refuse_if(append_record(path, record, write_whole))
    records = (*before.records, record)
    again = any(item._replace(mark="", place=Place()) == record._replace(mark="") for item in before.records)
    return Added(record, path, tally(recipe.name, recipe.version, records), left_out, again)


def _read_back(record: Record) -> list[Problem]:
    _, problems = read_record(record_line(record), Place("evidence add"), load_vocabulary())
    return [problem._replace(place=Place(f"evidence add, {problem.place.path}")) for problem in problems]


def club_folder(named: Path | None) -> Path:
    """The library that a record goes to. Raises Refused: the one that ships is for reading."""
    found = named or (Path(os.environ["PROFILESMITH_LIBRARY"]) if os.environ.get("PROFILESMITH_LIBRARY") else None)
    if found is None:
        hint = "Name your own: --library FOLDER. 'profilesmith library new FOLDER' lays one out."
        raise Refused([Problem("no-library", "A record needs a library to go to; the one that ships is only read.", Place("--library"), hint)])
    if not found.is_dir():
        raise Refused([Problem("no-folder", "There is no such folder.", Place(str(found)), "'profilesmith library new FOLDER' lays out a library.")])
    return found


def evidence_path(folder: Path, recipe: str) -> Path:
    """Where a library keeps what is known of a recipe."""
    return folder / FOLDER / f"{safe_stem(recipe)}{ENDING}"


def _load(folder: Path, path: Path) -> Loaded:
    if not inside(folder, path):
        message = "The evidence lies outside the library."
        return Loaded((), (Problem("outside", message, Place(str(path)), "Put folder and file themselves there, not a link."),))
    if not os.path.lexists(path):
        return Loaded((), ())
    return load_evidence(path, str(path), load_vocabulary())


def tally_of(recipe: Recipe, library: Path | None) -> tuple[Tally, tuple[Problem, ...]]:
    """What the libraries know of a recipe, up to the one that it lies in, and the mistakes in their files."""
    records: list[Record] = []
    problems: list[Problem] = []
    for folder in _folders(recipe, library):
        loaded = _load(folder, evidence_path(folder, recipe.name))
        records += loaded.records
        problems += loaded.problems
    once = {record.id: record for record in records}
    return tally(recipe.name, recipe.version, once.values()), tuple(problems)


def _folders(recipe: Recipe, library: Path | None) -> list[Path]:
    """A nearer library's recipe hides one of the same name farther off, and so does its evidence."""
    found = []
    for folder in libraries(library):
        found.append(folder)
        if Path(recipe.file).resolve().is_relative_to(folder.resolve()):
            break
    return found


def list_evidence(name: str, library: Path | None, form: str) -> str:
    """All records, or those of a recipe, with their sums. Raises Refused; also for files with mistakes."""
    if form not in FORMS:
        raise Refused([Problem("form", f"Evidence has no form {form!r}.", Place("--as"), f"Known here: {', '.join(FORMS)}.")])
    problems: list[Problem] = []
    found: list[tuple[Recipe, Tally]] = []
    for recipe in _recipes(name, library, problems):
        summed, faults = tally_of(recipe, library)
        problems += faults
        found.append((recipe, summed))
    refuse_if(problems)
    if form == "json":
        return json.dumps([tally_json(summed) for _, summed in found], ensure_ascii=False, indent=2) + "\n"
    known = [summed for _, summed in found if name or summed.records or summed.others]
    return "\n\n".join("\n".join(visible(line) for line in tally_lines(summed)) for summed in known) + "\n" if known else "No evidence is recorded yet.\n"


def _recipes(name: str, library: Path | None, problems: list[Problem]) -> list[Recipe]:
    if name:
        return read_recipes([name], library, problems)
    loaded = (load_recipe(path, str(path), load_vocabulary())[0] for _, path in names("recipe", library))
    return [recipe for recipe in loaded if recipe is not None]
