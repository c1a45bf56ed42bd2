"""Withdraw a record of a print: a record of its own says why, for every recipe of that print. Nothing is taken out."""

from __future__ import annotations

import datetime
import secrets
from collections.abc import Iterator, Mapping
from pathlib import Path

from profilesmith.evidence.append_record import append_lines
from profilesmith.evidence.load_evidence import LoadedEvidence
from profilesmith.evidence.read_record import read_record
from profilesmith.evidence.record import Record
from profilesmith.evidence.withdrawal import Withdrawal, withdrawal_line
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.lint.names import files_of
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.evidence import club_folder
from profilesmith.workflows.evidence_of import load_of
from profilesmith.write_files import write_whole

SHORTEST = 4  # digits of an id that name a record


class Withdrawn(NamedTuple):
    """A print of that day counts no more. recipes: for which, and the file of each."""

    date: str
    recipes: tuple[tuple[str, Path], ...]


def withdraw(word: str, why: str, by: str, library: Path | None, date: str = "") -> Withdrawn:
    """Withdraw a print. word: the id of one of its records, or its first digits.

    Raises Refused; then nothing was written.
    """
    folder = club_folder(library)
    files = {path: load_of(folder, path) for path in files_of(folder, "evidence")}
    wanted = _wanted(word, files)
    mark = secrets.token_hex(4)
    day = date or datetime.date.today().isoformat()
    todo = [
        (path, Withdrawal(day, record.recipe, record.id, why.strip(), mark, by))
        for path, loaded in files.items()
        for record in loaded.records
        if _is_of(record, wanted)
    ]
    refuse_if(problem for _, item in todo for problem in _read_back(item))
    refuse_if(_withdrawn(wanted, files))
    for path, item in todo:
        refuse_if(append_lines(path, withdrawal_line(item).encode(), write_whole))
    return Withdrawn(wanted.date, tuple((item.recipe, path) for path, item in todo))


def _wanted(word: str, files: Mapping[Path, LoadedEvidence]) -> Record:
    """The record that an id, or the first digits of one, means. Raises Refused."""
    records = {
        record.id: record
        for loaded in files.values()
        for record in loaded.records
        if record.id.startswith(word) and len(word) >= SHORTEST
    }
    prints = {(record.mark, record.date) for record in records.values()}
    if len(prints) == 1:
        return next(iter(records.values()))
    message = f"{len(prints)} prints begin with {word!r}." if prints else f"There is no record {word!r}."
    hint = (
        "'profilesmith evidence list' shows the id of each record in brackets; four digits are "
        "enough where only one begins so."
    )
    raise Refused([Problem("no-record", message, Place("evidence withdraw"), hint)])


def _is_of(record: Record, wanted: Record) -> bool:
    """Whether two records are of one print."""
    recipes = ({item.recipe, *item.together} for item in (record, wanted))
    return (record.mark, record.date) == (wanted.mark, wanted.date) and len(set(map(frozenset, recipes))) == 1


def _withdrawn(wanted: Record, files: Mapping[Path, LoadedEvidence]) -> Iterator[Problem]:
    for loaded in files.values():
        for item in loaded.withdrawals:
            if item.withdraws == wanted.id:
                message = f"The print was withdrawn on {item.date} already: {item.why}"
                yield Problem("withdrawn", message, item.place, "Record it anew where it was right after all.")


def _read_back(item: Withdrawal) -> list[Problem]:
    _, problems = read_record(withdrawal_line(item), Place("evidence withdraw"), load_vocabulary())
    return [problem._replace(place=Place(f"--{problem.place.path}")) for problem in problems]
