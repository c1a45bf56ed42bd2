"""Why a cause of what was seen is not proposed: what is left to look at once no change is worth a print."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import Literal

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.mend.changes import LEAST_MOVE, Room
from profilesmith.mend.so_far import SoFar
from profilesmith.mend.troubles import Knowledge, TroubleCause
from profilesmith.mend.world import PrintState, lever_of

Why = Literal["done", "no key", "at its end", "made it worse", "open"]


class Closed(NamedTuple):
    """A cause of a trouble that was seen, and why no change is proposed for it.

    open: it could be tried still, but little speaks for it.
    """

    trouble: str
    cause: TroubleCause
    why: Why


def closed_causes(
    known: Knowledge, past: SoFar, room: Room, keys: Collection[str], cannot: Collection[tuple[str, int]]
) -> tuple[Closed, ...]:
    """keys: the settings that have one. cannot: (trouble, place among its causes) that facts rule out."""
    return tuple(_closed(known, past, room, keys, cannot))


def _closed(
    known: Knowledge, past: SoFar, room: Room, keys: Collection[str], cannot: Collection[tuple[str, int]]
) -> Iterator[Closed]:
    state = past.prints[-1].state
    for name, grade in past.seen.items():
        causes = known.troubles[name].causes if grade != "good" and name in known.troubles else ()
        for rank, cause in enumerate(causes):
            if (name, rank) not in cannot:
                yield Closed(name, cause, _why(cause, past, state, room, keys))


def _why(cause: TroubleCause, past: SoFar, state: PrintState, room: Room, keys: Collection[str]) -> Why:
    lever = lever_of(cause)
    if cause.do:
        return "done" if cause.do in state.done else "open"
    if cause.setting not in keys:
        return "no key"
    if lever in past.worse:
        return "made it worse"
    low, high = room.get(cause.setting, (0.0, 0.0))
    left = (high if lever.sign > 0 else low) - state.moved.get(cause.setting, 0.0)
    return "open" if left * lever.sign >= LEAST_MOVE else "at its end"
