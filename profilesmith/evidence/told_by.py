"""The prints of several recipes by machine or by spool, as lines and as data. Whoever prints the lines makes them
visible.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from profilesmith.evidence.groups import BY, RecordGroup, group_json, group_says, groups
from profilesmith.evidence.record import Record
from profilesmith.evidence.tally import CAUTION, CONFIDENCE, Tally


def by_groups(tallies: Sequence[Tally], kind: str, as_json: bool) -> str:
    """Each machine or spool with the prints that were made on it, each print once, and with which recipes."""
    records = [record for tally in tallies for record in tally.records]
    parts = groups(records, kind)
    if as_json:
        return json.dumps([_data(part, tallies, kind) for part in parts], ensure_ascii=False, indent=2) + "\n"
    if not parts:
        return "No evidence is recorded yet.\n"
    lines = []
    for part in parts:
        lines.append(group_says(part))
        lines += [f"  {tally.recipe} {tally.version}: {worked}" for tally, worked in _recipes(part, tallies, kind)]
    return "\n".join([*lines, f"With {CONFIDENCE} confidence. {CAUTION}"]) + "\n"


def _recipes(part: RecordGroup, tallies: Sequence[Tally], kind: str) -> list[tuple[Tally, str]]:
    """What each recipe did on such a machine or spool."""
    worked = []
    for tally in tallies:
        mine: list[Record] = [record for record in tally.records if BY[kind](record) == part.what]
        if mine:
            worked.append((tally, f"{sum(record.outcome == 'worked' for record in mine)} of {len(mine)} worked"))
    return worked


def _data(part: RecordGroup, tallies: Sequence[Tally], kind: str) -> dict[str, Any]:
    return {**group_json(part), "recipes": {tally.recipe: worked for tally, worked in _recipes(part, tallies, kind)}}
