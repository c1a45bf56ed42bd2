"""Materials in words: what is known of them, as ranges with their sources."""

from __future__ import annotations

from fractions import Fraction

from profilesmith.checks.materials import Material, Range, in_unit, materials, property_titles, shown_unit
from profilesmith.facts.facts import Fact, Facts, fact_kinds
from profilesmith.review.wording import visible

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


def materials_list() -> str:
    """All of them, a line each."""
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


def material_in_full(item: Material, known: Facts, sources: bool) -> str:
    """One, with what a spool's facts say in place of what is usual."""
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
