"""What the libraries know of how prints with a recipe went: the files of its records, read and summed up."""

from __future__ import annotations

import os
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

from profilesmith.evidence.file_name import safe_stem
from profilesmith.evidence.load_evidence import ENDING, FOLDER, LoadedEvidence, load_evidence
from profilesmith.evidence.record import Record
from profilesmith.evidence.tally import Tally, tally
from profilesmith.evidence.withdrawal import Withdrawal
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem
from profilesmith.ledger.history import Grade
from profilesmith.library.find import libraries
from profilesmith.library.library import inside
from profilesmith.library.open_files import real_place
from profilesmith.recipe.recipe import Recipe
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


def evidence_path(folder: Path, recipe: str) -> Path:
    """Where a library keeps what is known of a recipe."""
    return folder / FOLDER / f"{safe_stem(recipe)}{ENDING}"


def load_of(folder: Path, path: Path) -> LoadedEvidence:
    if not inside(folder, path):
        message = "The evidence lies outside the library."
        return LoadedEvidence(
            (), (Problem("outside", message, Place(str(path)), "Put folder and file themselves there, not a link."),)
        )
    if not os.path.lexists(path):
        return LoadedEvidence((), ())
    return load_evidence(path, str(path), load_vocabulary())


def tally_of(recipe: Recipe, library: Path | None) -> tuple[Tally, tuple[Problem, ...]]:
    """What the libraries know of a recipe, up to the one that it lies in, and the mistakes in their files."""
    records: list[Record] = []
    withdrawals: list[Withdrawal] = []
    problems: list[Problem] = []
    for folder in _folders(recipe, library):
        loaded = load_of(folder, evidence_path(folder, recipe.name))
        records += loaded.records
        withdrawals += loaded.withdrawals
        problems += loaded.problems
    once = {record.id: record for record in records}
    seen = _seen_elsewhere(once.values(), _folders(recipe, library))
    return tally(recipe.name, recipe.version, once.values(), seen, withdrawals), tuple(problems)


def _seen_elsewhere(records: Iterable[Record], folders: Sequence[Path]) -> dict[str, Mapping[str, Grade]]:
    """Record's id -> what was observed of its print, where the record of another of its recipes holds that."""
    lacking = [item for item in records if item.together and not item.judged]
    names = dict.fromkeys(name for item in lacking for name in item.together)
    files = [load_of(folder, evidence_path(folder, name)) for name in names for folder in folders]
    first = {_print_of(item): item.judged for loaded in files for item in loaded.records if item.judged}
    return {item.id: first[_print_of(item)] for item in lacking if _print_of(item) in first}


def _print_of(record: Record) -> tuple[str, str, frozenset[str]]:
    """What the records of one print have in common."""
    return record.mark, record.date, frozenset((record.recipe, *record.together))


def _folders(recipe: Recipe, library: Path | None) -> list[Path]:
    """A nearer library's recipe hides one of the same name farther off, and so does its evidence."""
    folders = []
    for folder in libraries(library):
        folders.append(folder)
        if real_place(recipe.file).resolve().is_relative_to(folder.resolve()):
            break
    return folders
