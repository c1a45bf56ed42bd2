"""Temperatures against what the machine's own instructions allow."""

from profilesmith.checks.case import Case, ask
from profilesmith.checks.finding import amount
from profilesmith.ledger.judgement import Finding

# check, settings, fact
SUBJECTS = (
    (
        "nozzle-maximum",
        ("nozzle.temperature", "first_layer.nozzle_temperature"),
        "machine.maximum_nozzle_temperature",
    ),
    ("bed-maximum", ("bed.temperature", "first_layer.bed_temperature"), "machine.maximum_bed_temperature"),
)
SOURCE = "the machine's own instructions, as stated in the facts file"


def check(case: Case) -> tuple[Finding, ...]:
    """One finding for the nozzle, one for the bed."""
    findings = (_judge(case, *subject) for subject in SUBJECTS)
    return tuple(finding for finding in findings if finding is not None)


def _judge(case: Case, check_id: str, settings: tuple[str, ...], fact: str) -> Finding | None:
    values = {name: value for name in settings if (value := case.number(name)) is not None}
    if not values:
        return None
    most = case.quantity(fact)
    if most is None:
        return Finding(check_id, "not judged", reason="instructions-not-said", ask=ask(fact), settings=tuple(values))
    hottest = max(values, key=lambda name: values[name])
    value = values[hottest]
    return Finding(
        check_id,
        "passed" if value <= most else "stop",
        reason="within-instructions" if value <= most else "above-instructions",
        amounts=(
            *amount("before", case.before(hottest), "°C"),
            *amount("after", value, "°C"),
            *amount("most", most, "°C"),
            *amount("headroom", most - value if value < most else None, "°C"),
            *amount("above", value - most if value > most else None, "°C"),
        ),
        source=SOURCE,
        settings=tuple(values),
    )
