"""Bed temperature against the spool's label, or what is usual for its material."""

from profilesmith.checks.case import Case
from profilesmith.checks.windows import Subject, judge_window
from profilesmith.ledger.judgement import Finding

SUBJECT = Subject(
    "bed-temperature",
    ("bed.temperature", "first_layer.bed_temperature"),
    "spool.bed_window",
    "bed_temperature",
    cold_verdict="note",
)


def check(case: Case) -> tuple[Finding, ...]:
    """Both bed temperatures."""
    return judge_window(case, SUBJECT)
