"""Bed temperature against the spool's label, or what is usual for its material."""

from profilesmith.checks.case import Case
from profilesmith.checks.windows import Subject, judge_window
from profilesmith.ledger.judgement import Finding

SUBJECT = Subject(
    "bed-temperature",
    "Bed temperature",
    ("bed.temperature", "first_layer.bed_temperature"),
    "spool.bed_window",
    "bed_temperature",
    cold="the part may come loose",
    hot="the lowest layers stay soft and bulge",
    cold_verdict="note",
)


def check(case: Case) -> tuple[Finding, ...]:
    """Both bed temperatures."""
    return judge_window(case, SUBJECT)
