"""Facts that differ from what a ledger holds, and facts files that cannot be read any more, in words."""

from __future__ import annotations

from collections.abc import Sequence

from profilesmith.facts.fact_change import FactChange
from profilesmith.facts.facts import FactValue, fact_kinds
from profilesmith.foundation.words import listed


def change_sentences(changes: Sequence[FactChange]) -> list[str]:
    """One a file: ``facts desk changed (maximum nozzle temperature: 270 °C → 220 °C)``."""
    files = dict.fromkeys(item.file for item in changes)
    return [
        f"facts {file} changed ({listed(_words(item) for item in changes if item.file == file)})"
        if file
        else f"{listed(_name(item.name) for item in changes if item.file == file)}: said by no facts file any more"
        for file in files
    ]


def _words(item: FactChange) -> str:
    return f"{_name(item.name)}: {_shown(item.name, item.was)} → {_shown(item.name, item.now)}"


def _name(fact: str) -> str:
    return fact.partition(".")[2].replace("_", " ")


def _shown(name: str, value: FactValue | None) -> str:
    return "not said" if value is None else fact_kinds()[name].show(value)


def unread_facts(name: str, why: str) -> str:
    return f"the facts {name} cannot be read ({why.rstrip('.')})"
