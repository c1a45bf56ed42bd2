"""Materials: what is known of them, as ranges with their sources; what a spool's facts say goes before it."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

from profilesmith.checks.materials import Material, Range, in_unit, material, materials, property_titles, shown_unit
from profilesmith.facts.facts import Fact, Facts, Hardness, fact_kinds
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, did_you_mean, refuse_if
from profilesmith.review.wording import visible
from profilesmith.workflows.read import read_facts

# The fact that goes before a property, where there is one.
FACTS = {
    "density": "spool.density",
    "glass_transition": "spool.softening_temperature",
    "nozzle_temperature": "spool.nozzle_window",
    "bed_temperature": "spool.bed_window",
    "drying_temperature": "spool.drying_temperature",
    "drying_time": "spool.drying_time",
    "modulus": "spool.modulus",
    "maximum_flow": "spool.maximum_flow",
}


def describe(name: str, facts: tuple[str, ...] = (), library: Path | None = None, sources: bool = False) -> str:
    """Plain text: a list, or one material in full. Raises Refused for a name that means none, or facts that are
    wrong.
    """
    problems: list[Problem] = []
    known = read_facts(facts, library, problems)
    refuse_if(problems)
    wanted = name or _told(known)
    if not wanted:
        return _all()
    hardness = known["spool.hardness"].value if "spool.hardness" in known else None
    known_as = material(wanted, hardness if isinstance(hardness, Hardness) else None)
    if known_as is None:
        words = {word: item.key for item in materials().values() for word in (item.key, *item.also)}
        hint = did_you_mean(wanted, words, f"Known: {', '.join(materials())}.")
        raise Refused([Problem("unknown-material", f"No material is called {wanted!r}.", Place("NAME"), hint)])
    return _one(known_as, known, sources or not facts)


def _told(known: Facts) -> str:
    fact = known.get("spool.material")
    return fact.value if fact is not None and isinstance(fact.value, str) else ""


def _all() -> str:
    lines = [f"{'':<14} {'soft':<5} {'nozzle':<16} {'bed':<14} {'modulus':<19} largest flow, 0.4 mm nozzle"]
    for item in materials().values():
        shown = [
            item.ranges[name].show() if name in item.ranges else "-"
            for name in ("nozzle_temperature", "bed_temperature", "modulus", "maximum_flow")
        ]
        lines.append(
            f"{item.key:<14} {'yes' if item.flexible else 'no':<5} {shown[0]:<16} {shown[1]:<14} "
            f"{shown[2]:<19} {shown[3]}"
        )
    lines += [
        "",
        (
            "Ranges, not recommendations: the spool's label goes before them. 'profilesmith materials "
            "NAME' shows one in full."
        ),
    ]
    return "\n".join(lines) + "\n"


def _one(item: Material, known: Facts, sources: bool) -> str:
    lines = [
        f"{item.key}: {item.name}",
        f"  also called {', '.join(item.also)}; {'soft' if item.flexible else 'rigid'}",
        "",
    ]
    for name, title in property_titles().items():
        usual, fact = item.ranges.get(name), known.get(FACTS.get(name, ""))
        if fact is not None:
            shown = _shown(FACTS[name], fact, usual)
            lines.append(f"  {title:<40} {shown}  (this spool{f'; usual {usual.show()}' if usual else ''})")
        elif usual is not None:
            lines.append(f"  {title:<40} {usual.show()}")
        if usual is not None and sources:
            lines.append(f"      {_source(usual)}")
    lines += [
        "",
        (
            "Ranges, not recommendations: the spool's label goes before them, and its facts (--facts) "
            "replace them in all checks."
        ),
    ]
    return "\n".join(visible(line) for line in lines) + "\n"


def _shown(name: str, fact: Fact, usual: Range | None) -> str:
    """A spool's own value, in the unit of the range beside it."""
    if usual is not None and isinstance(fact.value, Fraction):
        return f"{in_unit(float(fact.value), usual.unit)} {shown_unit(usual.unit)}"
    return fact_kinds()[name].show(fact.value)


def _source(usual: Range) -> str:
    mark = "" if usual.source.startswith(usual.mark) else f"{usual.mark}: "
    return f"{mark}{usual.source}" + (f"; {usual.note}" if usual.note else "")
