"""Nozzle temperature against the spool's label, or what is usual for its material."""

from profilesmith.checks.case import Case
from profilesmith.checks.windows import Subject, judge_window
from profilesmith.ledger.judgement import Finding

SUBJECT = Subject(
    "nozzle-temperature",
    ("nozzle.temperature", "first_layer.nozzle_temperature"),
    "spool.nozzle_window",
    "nozzle_temperature",
    cold_verdict="caution",
)


def check(case: Case) -> tuple[Finding, ...]:
    """Both nozzle temperatures."""
    return judge_window(case, SUBJECT)
