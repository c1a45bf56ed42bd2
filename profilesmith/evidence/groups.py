"""Prints by the machine or the spool that they were made with: each group with its own exact range."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from fractions import Fraction
from typing import Any, Final

from profilesmith.evidence.interval import ShareInterval, exact_interval
from profilesmith.evidence.record import Record
from profilesmith.evidence.tally import FEW, percent_range
from profilesmith.facts.facts import Hardness, fact_kinds, read_fact
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.number import plain_text

DRIVES: Final = {"direct": "direct drive", "remote": "drive through a tube"}
UNSAID: Final = "not said"
TENS: Final = 10  # hardness is told in tens: spools of one kind differ by a few points


class RecordGroup(NamedTuple):
    """records: of prints with such a machine or spool, each print once. what: in words, ``direct drive, 0.4 mm
    nozzle``.
    """

    what: str
    records: tuple[Record, ...]

    @property
    def tried(self) -> int:
        return len(self.records)

    @property
    def worked(self) -> int:
        return sum(record.outcome == "worked" for record in self.records)

    @property
    def interval(self) -> ShareInterval:
        return exact_interval(self.worked, self.tried)


def machine_parts(record: Record) -> tuple[str, str]:
    """Drive and bore in words, which decide most of what a soft filament does on a machine."""
    drive = DRIVES.get(record.facts.get("machine.drive", ""), f"drive {UNSAID}")
    bore = record.facts.get("machine.nozzle_diameter", "")
    nozzle = f"{_shown('machine.nozzle_diameter', bore)} nozzle" if bore else f"nozzle {UNSAID}"
    return drive, nozzle


def machine_of(record: Record) -> str:
    """Both in one."""
    return ", ".join(machine_parts(record))


def spool_of(record: Record) -> str:
    """Material and class of hardness."""
    material = record.facts.get("spool.material", f"material {UNSAID}")
    value = read_fact(fact_kinds()["spool.hardness"], record.facts.get("spool.hardness", ""))
    if not isinstance(value, Hardness):
        return f"{material}, hardness {UNSAID}"
    low = value.number // TENS * TENS
    return (
        f"{material}, {plain_text(Fraction(low), 0)} to {plain_text(Fraction(low + TENS - 1), 0)} Shore {value.scale}"
    )


BY: Final[Mapping[str, Callable[[Record], str]]] = {"machine": machine_of, "spool": spool_of}


def groups(records: Iterable[Record], kind: str) -> tuple[RecordGroup, ...]:
    """By ``machine`` or ``spool``, the largest group first. The records of one print, one for each recipe, count
    once.
    """
    once = {(record.mark, record.date, _recipes(record)): record for record in reversed(list(records))}
    members: dict[str, list[Record]] = {}
    for record in once.values():
        members.setdefault(BY[kind](record), []).append(record)
    made = [RecordGroup(what, tuple(items)) for what, items in members.items()]
    return tuple(sorted(made, key=lambda item: (-item.tried, item.what)))


def _recipes(record: Record) -> frozenset[str]:
    return frozenset((record.recipe, *record.together))


def group_says(group: RecordGroup) -> str:
    """``direct drive, 0.4 mm nozzle: 2 of 3 worked (9 % to 100 %)``."""
    few = ", too few to tell" if group.tried < FEW else ""
    return f"{group.what}: {group.worked} of {group.tried} worked{few} ({percent_range(group.interval)})"


def _shown(name: str, text: str) -> str:
    value = read_fact(fact_kinds()[name], text)
    return text if value is None else fact_kinds()[name].show(value)


def group_json(group: RecordGroup) -> dict[str, Any]:
    """A group as data."""
    interval = group.interval
    limits = {"low": interval.low, "high": interval.high, "confidence": interval.level}
    return {"what": group.what, "tried": group.tried, "worked": group.worked, "interval": limits}
