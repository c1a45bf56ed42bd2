"""F11x: what a facts file should say besides what its loader asks for."""

from collections.abc import Iterator

from profilesmith.checks.materials import material
from profilesmith.facts.facts import Hardness, fact_kinds
from profilesmith.lint.heat import plausible_end
from profilesmith.lint.rule import Fault, LintRule
from profilesmith.lint.subjects import FactsFile

WINDOWS = {"spool.nozzle_window": "nozzle_temperature", "spool.bed_window": "bed_temperature"}


def _empty(file: FactsFile) -> Iterator[Fault]:
    if not file.facts:
        yield Fault("The file tells no fact.")


def _nameless(file: FactsFile) -> Iterator[Fault]:
    machine = file.content.get("machine")
    if machine and not str(machine.get("name", "")).strip():
        yield Fault("The machine has no name.", file.lines.get(("machine",)))


def _too_hot(file: FactsFile) -> Iterator[Fault]:
    named, hardness = file.facts.get("spool.material"), file.facts.get("spool.hardness")
    scale = hardness.value if hardness and isinstance(hardness.value, Hardness) else None
    known = material(str(named.value), scale) if named else None
    for name, property_name in WINDOWS.items():
        fact = file.facts.get(name)
        if known is None or fact is None or not isinstance(fact.value, tuple) or property_name not in known.ranges:
            continue
        most, high = plausible_end(known.key, property_name), fact.value[1]
        if not isinstance(high, str) and high > most:
            shown = fact_kinds()[name].show(fact.value)
            yield Fault(
                f"{name} is {shown}; nothing above {float(most):g} °C is plausible for {known.key}.", fact.place.line
            )


RULES = (
    LintRule(
        "F110",
        "hint",
        "The file tells something",
        "An empty file answers nothing, and looks as if it did.",
        "Add a [machine], [spool] or [part] with what is known.",
        _empty,
    ),
    LintRule(
        "F111",
        "hint",
        "A machine has a name",
        "Reviews name the machine that facts came from; two nameless ones cannot be told apart.",
        'Add name = "..." to [machine]: what you call it, nobody\'s own name.',
        _nameless,
    ),
    LintRule(
        "F112",
        "error",
        "A spool's windows fit its material",
        "A window beyond all that the material stands lets every recipe overheat it.",
        "Look at the label again: is the material right, and the unit?",
        _too_hot,
    ),
)
