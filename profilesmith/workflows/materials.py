"""Materials: which one a name or a spool's facts mean; what a spool's facts say goes before what is known of it."""

from __future__ import annotations

from pathlib import Path

from profilesmith.checks.materials import Material, material, materials
from profilesmith.facts.facts import Facts, Hardness
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, did_you_mean, refuse_if
from profilesmith.workflows.read import read_facts


class MaterialOfSpool(NamedTuple):
    """material: None where neither a name nor a fact says one. facts: what is known of the spool."""

    material: Material | None
    facts: Facts


def material_of(name: str, facts: tuple[str, ...] = (), library: Path | None = None) -> MaterialOfSpool:
    """Raises Refused for a name that means none, or facts that are wrong."""
    problems: list[Problem] = []
    known = read_facts(facts, library, problems)
    refuse_if(problems)
    wanted = name or _said(known)
    if not wanted:
        return MaterialOfSpool(None, known)
    hardness = known["spool.hardness"].value if "spool.hardness" in known else None
    known_as = material(wanted, hardness if isinstance(hardness, Hardness) else None)
    if known_as is None:
        words = {word: item.key for item in materials().values() for word in (item.key, *item.also)}
        hint = did_you_mean(wanted, words, f"Known: {', '.join(materials())}.")
        raise Refused([Problem("unknown-material", f"No material is called {wanted!r}.", Place("NAME"), hint)])
    return MaterialOfSpool(known_as, known)


def _said(known: Facts) -> str:
    fact = known.get("spool.material")
    return fact.value if fact is not None and isinstance(fact.value, str) else ""
