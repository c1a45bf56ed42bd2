"""An evidence file to its records: one JSON object a line, each counted once, every mistake with its line."""

from __future__ import annotations

from pathlib import Path

from profilesmith.evidence.read_record import read_record
from profilesmith.evidence.record import Record
from profilesmith.evidence.withdrawal import Withdrawal
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem
from profilesmith.foundation.read_file import cannot_read, must_be_plain
from profilesmith.vocabulary.setting import Vocabulary

FOLDER, ENDING = "evidence", ".jsonl"
LARGEST_FILE = 8_000_000  # bytes
LONGEST_LINE = 32_000  # characters
MOST_RECORDS = 10_000
MOST_PROBLEMS = 100


class LoadedEvidence(NamedTuple):
    """records: in the order of the file, each id once. repeated: how many lines were there again.

    withdrawals: in their order, whatever they withdraw.
    """

    records: tuple[Record, ...]
    problems: tuple[Problem, ...]
    repeated: int = 0
    withdrawals: tuple[Withdrawal, ...] = ()


def load_evidence(path: Path, name: str, vocabulary: Vocabulary) -> LoadedEvidence:
    """Read a file. name: as the user knows it. Records beside a mistake are returned too."""
    try:
        must_be_plain(path)
        with path.open("rb") as stream:
            raw = stream.read(LARGEST_FILE + 1)
    except OSError as error:
        return LoadedEvidence((), (cannot_read(name, error),))
    return parse_evidence(raw, name, vocabulary)


def parse_evidence(raw: bytes, name: str, vocabulary: Vocabulary) -> LoadedEvidence:
    """As ``load_evidence``, from bytes."""
    if len(raw) > LARGEST_FILE:
        message = f"The evidence is larger than {LARGEST_FILE:,} bytes."
        return LoadedEvidence(
            (), (Problem("too-large", message, Place(name), "Keep the records of the newest versions."),)
        )
    try:
        lines = raw.decode("utf-8-sig").replace("\r\n", "\n").split("\n")
    except UnicodeDecodeError:
        return LoadedEvidence(
            (), (Problem("not-utf8", "The evidence is not UTF-8 text.", Place(name), "Save it as UTF-8."),)
        )
    by_id: dict[str, Record | Withdrawal] = {}
    problems: list[Problem] = []
    read = 0
    for number, line in enumerate(lines, 1):
        if not line.strip():
            continue
        read += 1
        if read > MOST_RECORDS or len(problems) >= MOST_PROBLEMS:
            problems.append(_enough(Place(name, number), read))
            break
        record, faults = _line(line, Place(name, number), vocabulary)
        problems += faults
        if record is not None:
            by_id.setdefault(record.id, record)
    return LoadedEvidence(
        tuple(item for item in by_id.values() if isinstance(item, Record)),
        tuple(problems),
        read - len(by_id) if not problems else 0,
        tuple(item for item in by_id.values() if isinstance(item, Withdrawal)),
    )


def _line(line: str, place: Place, vocabulary: Vocabulary) -> tuple[Record | Withdrawal | None, list[Problem]]:
    if len(line) > LONGEST_LINE:
        hint = "A record is a short line; is a line end missing?"
        return None, [Problem("too-long", f"The line is longer than {LONGEST_LINE:,} characters.", place, hint)]
    return read_record(line, place, vocabulary)


def _enough(place: Place, read: int) -> Problem:
    if read > MOST_RECORDS:
        return Problem(
            "too-many",
            f"There are more than {MOST_RECORDS:,} records.",
            place,
            "Keep the records of the newest versions.",
        )
    return Problem("too-many", "There are more mistakes; reading stopped here.", place, "Mend those above first.")
