"""By what recipes can be found and sorted on the index: data of each row, which its script reads."""

from __future__ import annotations

import re
from typing import Final

from profilesmith.catalogue.catalogue import RecipeEntry
from profilesmith.evidence.groups import DRIVES, UNSAID, groups, machine_parts

PARTS: Final = re.compile(rb"\bpart\.[a-z_]+")
MOST: Final = 12  # of one kind for one recipe


def found_by(entry: RecipeEntry) -> str:
    """``to:flexible PLA;drive:direct drive;bore:0.4 mm nozzle;tried``: material, machines, whether it asks of the
    part.
    """
    words = [f"to:{entry.recipe.target_material}"] if entry.recipe.target_material else []
    words += [f"{kind}:{word}" for kind, word in _machines(entry)]
    words += ["part"] if PARTS.search(entry.recipe.raw) else []
    words += ["tried"] if entry.tally.tried else []
    return ";".join(word.replace(";", ",") for word in words)


def _machines(entry: RecipeEntry) -> list[tuple[str, str]]:
    """Drives and bores that prints were made with, or that a rule has as its condition."""
    machines = [machine_parts(group.records[0]) for group in groups(entry.tally.records, "machine")]
    parts = [part for machine in machines for part in zip(("drive", "bore"), machine, strict=True)]
    for rule in entry.recipe.rules:
        for clause in rule.when:
            if clause.subject == "machine.drive":
                parts += [("drive", DRIVES.get(word, word)) for word in clause.words]
    known = [part for part in dict.fromkeys(parts) if UNSAID not in part[1]]
    return known[:MOST]


def rank(entry: RecipeEntry) -> int:
    """How much speaks for a recipe: the share of prints that would work at least, in per cent; -1 for an untried
    one.
    """
    interval = entry.tally.interval
    return -1 if interval is None else int(interval.low * 100)
