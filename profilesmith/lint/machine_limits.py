"""F114: a machine's limit that no material of the table asks for."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import cache

from profilesmith.facts.facts import fact_kinds
from profilesmith.lint.heat import plausible_end
from profilesmith.lint.rule import Fault, LintRule
from profilesmith.lint.subjects import FactsFile
from profilesmith.vocabulary.load_vocabulary import knowledge

LIMITS = {
    "machine.maximum_nozzle_temperature": "nozzle_temperature",
    "machine.maximum_bed_temperature": "bed_temperature",
}


@cache
def hottest(name: str) -> Fraction:
    """The highest plausible temperature of any material of the table, in °C."""
    materials = knowledge("materials.toml")["materials"]
    return max(plausible_end(key, name) for key, table in materials.items() if name in table)


def _beyond(file: FactsFile) -> Iterator[Fault]:
    for fact, name in LIMITS.items():
        stated = file.facts.get(fact)
        if stated is not None and isinstance(stated.value, Fraction) and stated.value > hottest(name):
            shown, most = fact_kinds()[fact].show(stated.value), fact_kinds()[fact].show(hottest(name))
            yield Fault(f"{fact} is {shown}; no material of the table is printed above {most}.", stated.place.line)


RULES = (
    LintRule(
        "F114",
        "hint",
        "A machine's limit is one that some material asks for",
        "The limit is what holds every recipe back; one that is out of reach holds nothing back.",
        "Give the limit up to which this machine is used: of its liner, its hot end, or its maker.",
        _beyond,
    ),
)
