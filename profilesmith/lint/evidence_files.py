"""E11x: whether records of evidence belong to a recipe that is there, and stand in its file."""

from collections.abc import Iterator

from profilesmith.evidence.file_name import safe_stem
from profilesmith.evidence.record import Record
from profilesmith.lint.rule import Fault, LintRule
from profilesmith.lint.subjects import EvidenceFile


def _firsts(file: EvidenceFile) -> dict[str, Record]:
    """The first record of each recipe, by its name."""
    firsts: dict[str, Record] = {}
    for record in file.records:
        firsts.setdefault(record.recipe, record)
    return firsts


def _unknown(file: EvidenceFile) -> Iterator[Fault]:
    for name, record in _firsts(file).items():
        if not file.names.has_recipe(name):
            yield Fault(f"There is no recipe {name!r}, which this record is about.", record.place.line)


def _elsewhere(file: EvidenceFile) -> Iterator[Fault]:
    for name, record in _firsts(file).items():
        wanted = safe_stem(name)
        if file.path.stem != wanted:
            message = f"Records of {name!r} belong into {wanted}{file.path.suffix}, not into {file.path.name}."
            yield Fault(message, record.place.line)


def _withdraws_nothing(file: EvidenceFile) -> Iterator[Fault]:
    known = {record.id for record in file.records}
    for item in file.withdrawals:
        if item.withdraws not in known:
            yield Fault(f"There is no record {item.withdraws} here, which this line withdraws.", item.place.line)


RULES = (
    LintRule(
        "E110",
        "error",
        "The recipe of every record exists",
        "Evidence for a recipe that nobody can read helps nobody.",
        "Bring the recipe back, or take its records out with it.",
        _unknown,
    ),
    LintRule(
        "E111",
        "error",
        "Every record stands in its recipe's file",
        "A recipe's evidence is looked for in its own file; records elsewhere are not counted.",
        "Move the line into the file that the message names.",
        _elsewhere,
    ),
    LintRule(
        "E112",
        "error",
        "What is withdrawn is there",
        (
            "Who withdraws a record leaves it where it is, so that everybody sees what was said, and "
            "why it counts no more."
        ),
        "Put the record back, or take this line out where it was never there.",
        _withdraws_nothing,
    ),
)
