"""Temperatures against what the machine's own instructions allow."""

from profilesmith.checks.amounts import degrees
from profilesmith.checks.case import Case, ask
from profilesmith.checks.finding import not_said
from profilesmith.ledger.judgement import Finding

# check, title, settings, fact, and what happens above.
SUBJECTS = (
    (
        "nozzle-maximum",
        "Nozzle temperature and machine",
        ("nozzle.temperature", "first_layer.nozzle_temperature"),
        "machine.maximum_nozzle_temperature",
        "the hot end can be damaged, give off harmful fumes or start a fire",
    ),
    (
        "bed-maximum",
        "Bed temperature and machine",
        ("bed.temperature", "first_layer.bed_temperature"),
        "machine.maximum_bed_temperature",
        "its heater, glue or cables can be damaged and catch fire",
    ),
)
SOURCE = "the machine's own instructions, as stated in the facts file"


def check(case: Case) -> tuple[Finding, ...]:
    """One finding for the nozzle, one for the bed."""
    found = (_judge(case, *subject) for subject in SUBJECTS)
    return tuple(finding for finding in found if finding is not None)


def _judge(case: Case, check_id: str, title: str, settings: tuple[str, ...], fact: str, harm: str) -> Finding | None:
    values = {name: value for name in settings if (value := case.number(name)) is not None}
    if not values:
        return None
    most = case.quantity(fact)
    if most is None:
        return not_said(check_id, title, "what the machine's instructions allow", ask(fact), tuple(values))
    hottest = max(values, key=lambda name: values[name])
    value, before = values[hottest], case.before(hottest)
    finding = Finding(
        check_id,
        "passed",
        title,
        "Within what the machine's instructions allow.",
        before="" if before is None else degrees(before),
        after=degrees(value),
        limit=f"at most {degrees(most)}",
        headroom=degrees(most - value) if value < most else "",
        source=SOURCE,
        settings=tuple(values),
    )
    if value <= most:
        return finding
    text = f"{degrees(value - most)} above what the machine's instructions allow: {harm}. Do not print with it."
    return finding._replace(verdict="stop", text=text)
