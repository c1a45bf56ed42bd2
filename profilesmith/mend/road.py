"""The road of mends: what was seen, what was changed then, and what came of it. A member ``mends`` of a derived file's ledger.

Each step is one ``mend`` that was written: what its print showed, what was said of the step before (``last``), and the changes.
From the steps alone every print's state is known again: how far each setting was moved from where it began, and what was done.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Any, Literal, NamedTuple, get_args

from profilesmith.foundation.number import decimal_text
from profilesmith.vocabulary.setting import Setting, Value, Vocabulary, read_value

Verdict = Literal["", "better", "same", "worse"]
VERDICTS: tuple[str, ...] = get_args(Verdict)[1:]
MOST_STEPS = 50


class RoadChange(NamedTuple):
    """A setting with its values before and after. trouble, what: for which, and its cause; "" where it only goes along."""

    setting: str
    before: Value
    after: Value
    trouble: str = ""
    what: str = ""
    why: str = ""
    source: str = ""


class RoadStep(NamedTuple):
    """did: what was done before its print. last: what became of the step before this one. undo: the changes take that one back."""

    seen: Mapping[str, str]
    looks: Mapping[str, bool]
    changes: tuple[RoadChange, ...]
    did: tuple[str, ...] = ()
    last: Verdict = ""
    undo: bool = False
    date: str = ""


def value_text(value: Value, setting: Setting) -> str:
    """An exact value as recipes write it."""
    if isinstance(value, Fraction):
        return f"{decimal_text(value, 6)} {setting.unit}".rstrip()
    return setting.show(value)


def road_json(steps: Sequence[RoadStep], vocabulary: Vocabulary) -> list[dict[str, Any]]:
    """The ledger's member."""
    return [
        {
            "date": step.date,
            "last": step.last,
            "undo": step.undo,
            "seen": dict(step.seen),
            "looks": dict(step.looks),
            "did": list(step.did),
            "changes": [_change_json(change, vocabulary) for change in step.changes],
        }
        for step in steps[-MOST_STEPS:]
    ]


def _change_json(change: RoadChange, vocabulary: Vocabulary) -> dict[str, str]:
    plain = {"trouble": change.trouble, "what": change.what, "why": change.why, "source": change.source}
    setting = vocabulary.settings[change.setting]
    before, after = value_text(change.before, setting), value_text(change.after, setting)
    return {"setting": change.setting, "before": before, "after": after, **plain}


def road_of(data: Sequence[Mapping[str, Any]], vocabulary: Vocabulary) -> tuple[RoadStep, ...]:
    """The steps of a ledger. Raises ValueError, KeyError or TypeError for what is none: a ledger may be a stranger's."""
    return tuple(_step(item, vocabulary) for item in data[:MOST_STEPS])


def _step(item: Mapping[str, Any], vocabulary: Vocabulary) -> RoadStep:
    if item["last"] not in ("", *VERDICTS):
        raise ValueError(item["last"])
    changes = tuple(_change(change, vocabulary) for change in item["changes"])
    return RoadStep(item["seen"], item["looks"], changes, tuple(item["did"]), item["last"], item["undo"], item["date"])


def _change(item: Mapping[str, str], vocabulary: Vocabulary) -> RoadChange:
    words = [item[key] for key in ("trouble", "what", "why", "source")]
    setting = vocabulary.settings[item["setting"]]
    before, after = read_value(setting, item["before"]), read_value(setting, item["after"])
    if not isinstance(before, (Fraction, bool, str)) or not isinstance(after, (Fraction, bool, str)):
        raise ValueError(item["setting"])
    return RoadChange(setting.id, before, after, *words)


def origins(steps: Sequence[RoadStep]) -> dict[str, Value]:
    """Where each setting that was ever moved began."""
    found: dict[str, Value] = {}
    for step in steps:
        for change in step.changes:
            found.setdefault(change.setting, change.before)
    return found


def standing(steps: Sequence[RoadStep]) -> dict[str, RoadChange]:
    """The last change of each setting that stands elsewhere than where it began."""
    began, last = origins(steps), {}
    for step in steps:
        for change in step.changes:
            last[change.setting] = change
    return {name: change for name, change in last.items() if change.after != began[name]}


def verdict_of(steps: Sequence[RoadStep], number: int, last: Verdict = "") -> Verdict:
    """What became of a step: said by the one after it, or ``last`` for the newest."""
    return steps[number + 1].last if number + 1 < len(steps) else last
