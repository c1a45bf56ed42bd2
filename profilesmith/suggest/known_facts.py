"""What is known of the machine helps to read its text: its bore must be there, and its limits are no settings."""

from collections.abc import Mapping
from fractions import Fraction

from profilesmith.facts.facts import Facts
from profilesmith.foundation.quantity import UNITS
from profilesmith.suggest.score import Candidate
from profilesmith.suggest.slot import Slot

SAME, OTHER, AT_THE_LIMIT = 1.5, -1.5, -3.0
BORE = ("machine.nozzle_diameter", "nozzle.diameter")
LIMITS: Mapping[str, tuple[str, ...]] = {
    "machine.maximum_nozzle_temperature": ("nozzle.temperature", "first_layer.nozzle_temperature"),
    "machine.maximum_bed_temperature": ("bed.temperature", "first_layer.bed_temperature"),
}


def with_facts(slot: Slot, candidates: list[Candidate], facts: Facts) -> list[Candidate]:
    """The candidates of a slot with their fits set right by what is known."""
    if slot.number is None:
        return candidates
    return [_with_facts(slot.number, candidate, facts) for candidate in candidates]


def _with_facts(number: Fraction, candidate: Candidate, facts: Facts) -> Candidate:
    name = candidate.schema.setting.id
    known = [(fact, AT_THE_LIMIT, 0.0) for fact, settings in LIMITS.items() if name in settings and fact in facts]
    if name == BORE[1] and BORE[0] in facts:
        known.append((BORE[0], SAME, OTHER))
    for fact, same, other in known:
        value = facts[fact].value
        ways = []
        for fit in candidate.ways:
            unit = UNITS.get(fit.way.unit)
            equal = unit is not None and not fit.way.share and unit.to_canonical(number) == value
            ways.append(fit._replace(gain=fit.gain + (same if equal else other)))
        candidate = candidate._replace(ways=ways)
    return candidate
