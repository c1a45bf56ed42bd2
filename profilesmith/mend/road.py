"""The road of mends: what was seen, what was changed then, and what came of it. A ledger keeps it
(``ledger/history.py``).

Each step is one ``mend`` that was written: what its print showed, what was said of the step before (``last``), and the
changes. From the steps alone every print's state is known again: how far each setting was moved from where it began,
and what was done.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger.exact import suits
from profilesmith.ledger.history import Grade, Mend, MendChange, Verdict
from profilesmith.vocabulary.setting import Value, Vocabulary

MOST_STEPS = 50


class RoadChange(NamedTuple):
    """A setting with its values before and after. trouble, what: for which, and its cause; "" where it only goes
    along.
    """

    setting: str
    before: Value
    after: Value
    trouble: str = ""
    what: str = ""
    why: str = ""
    source: str = ""


class RoadStep(NamedTuple):
    """did: what was done before its print. last: what became of the step before this one. undo: the changes take that
    one back.
    """

    seen: Mapping[str, Grade]
    looks: Mapping[str, bool]
    changes: tuple[RoadChange, ...]
    did: tuple[str, ...] = ()
    last: Verdict = ""
    undo: bool = False
    date: str = ""


def mends_of(steps: Sequence[RoadStep]) -> tuple[Mend, ...]:
    """The road as the ledger keeps it."""
    return tuple(
        Mend(step.date, step.last, step.undo, step.seen, step.looks, step.did, tuple(map(_change_of, step.changes)))
        for step in steps[-MOST_STEPS:]
    )


def _change_of(item: RoadChange) -> MendChange:
    return MendChange(item.setting, (item.before,), (item.after,), item.trouble, item.what, item.why, item.source)


def road_of(mends: Sequence[Mend], vocabulary: Vocabulary) -> tuple[RoadStep, ...]:
    """The steps of a ledger. Raises ValueError or KeyError for settings and values that are none: it may be a
    stranger's.
    """
    return tuple(
        RoadStep(
            item.seen,
            item.looks,
            tuple(_change(change, vocabulary) for change in item.changes),
            item.did,
            item.last,
            item.undo,
            item.date,
        )
        for item in mends[:MOST_STEPS]
    )


def _change(item: MendChange, vocabulary: Vocabulary) -> RoadChange:
    setting = vocabulary.settings[item.setting]
    for values in (item.before, item.after):
        if len(values) != 1 or not suits(values, setting):
            raise ValueError(item.setting)
    return RoadChange(item.setting, item.before[0], item.after[0], item.trouble, item.what, item.why, item.source)


def origins(steps: Sequence[RoadStep]) -> dict[str, Value]:
    """Where each setting that was ever moved began."""
    first: dict[str, Value] = {}
    for step in steps:
        for change in step.changes:
            first.setdefault(change.setting, change.before)
    return first


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
