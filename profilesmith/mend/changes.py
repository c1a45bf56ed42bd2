"""Which changes are open after a print: one lever by a step or two, inside the room, and the last one taken back."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.mend.belief import Guess, Print
from profilesmith.mend.world import Lever, PrintState

Room = Mapping[str, tuple[float, float]]
"""Setting -> the lowest and highest it may be moved, in steps from where it began. A setting without room is not moved.
"""
STRIDES = (1.0, 2.0)
LEAST_MOVE = 0.5  # of a step: a setting with less room is at its end
WORTH = {"good": 0, "fair": 1, "poor": 2}


class Change(NamedTuple):
    """One lever's change. do: a doing; else setting, from where to where, in steps from where it began. back: it goes
    back.
    """

    do: str = ""
    setting: str = ""
    before: float = 0.0
    after: float = 0.0
    back: bool = False

    @property
    def lever(self) -> Lever:
        return Lever(do=self.do) if self.do else Lever(setting=self.setting, sign=1 if self.after > self.before else -1)


def carried_out(state: PrintState, changes: Sequence[Change]) -> PrintState:
    """The state after some changes."""
    moved = {**state.moved, **{item.setting: item.after for item in changes if item.setting}}
    return PrintState(
        {name: steps for name, steps in moved.items() if steps}, state.done | {item.do for item in changes if item.do}
    )


def open_changes(
    supposed: Sequence[Guess],
    prints: Sequence[Print],
    room: Room,
    worse: frozenset[Lever],
    bound_back: Change | None,
) -> Iterator[tuple[Change, ...]]:
    """Every change that is open, alone, and beside the last one taken back where that one did no good.

    bound_back: the last one, where it made things worse: then it is taken back in any case.
    """
    singles = list(_singles(supposed, prints[-1].state, room, worse))
    undone = last_undone(prints)
    if bound_back is None:
        yield from ((change,) for change in singles)
    if undone is not None:
        yield (undone,)
        for change in singles:
            if change.do or change.setting != undone.setting:
                yield (undone, change)
            elif bound_back is not None and abs(change.after - undone.before) > abs(undone.after - undone.before):
                yield (change,)  # past where it stood before: it turns round


def open_levers(levers: Iterable[Lever], state: PrintState, room: Room, worse: frozenset[Lever]) -> frozenset[Lever]:
    """Those that may be moved still, or done."""
    return frozenset(lever for lever in levers if lever not in worse and any(_of_lever(lever, state, room)))


def taken_back(prints: Sequence[Print], worse: frozenset[Lever]) -> Change | None:
    """The last change taken back, where that very move is known to have made it worse."""
    undone = last_undone(prints)
    if undone is None:
        return None
    made = Lever(setting=undone.setting, sign=1 if undone.before > undone.after else -1)
    return undone if made in worse else None


def further_changes(
    supposed: Sequence[Guess], state: PrintState, room: Room, worse: frozenset[Lever], beside: Sequence[Change]
) -> Iterator[tuple[Change, ...]]:
    """Every change of another setting than those that are made anyway."""
    named = {change.setting for change in beside}
    yield from (
        (change,) for change in _singles(supposed, state, room, worse) if change.do or change.setting not in named
    )


def last_undone(prints: Sequence[Print]) -> Change | None:
    """The last change taken back, where it moved one setting and the print got no better."""
    if len(prints) < 2 or total(prints[-1].seen) < total(prints[-2].seen):
        return None
    now, then = prints[-1].state.moved, prints[-2].state.moved
    moved = [name for name in now.keys() | then.keys() if now.get(name, 0.0) != then.get(name, 0.0)]
    if len(moved) != 1:
        return None
    return Change("", moved[0], now.get(moved[0], 0.0), then.get(moved[0], 0.0), back=True)


def _singles(supposed: Sequence[Guess], state: PrintState, room: Room, worse: frozenset[Lever]) -> Iterator[Change]:
    levers = dict.fromkeys(matter.lever for guess in supposed for matter in guess.matters)
    # What was moved may go back, too: that is a lever of its own.
    levers |= dict.fromkeys(Lever(setting=name, sign=-1 if steps > 0 else 1) for name, steps in state.moved.items())
    for lever in levers:
        if lever not in worse:
            yield from _of_lever(lever, state, room)


def _of_lever(lever: Lever, state: PrintState, room: Room) -> Iterator[Change]:
    if not lever.do:
        yield from _moves(lever, state.moved.get(lever.setting, 0.0), room)
    elif lever.do not in state.done:
        yield Change(do=lever.do)


def _moves(lever: Lever, now: float, room: Room) -> Iterator[Change]:
    """A setting moved by one step or two, or as far as there is room when that is half a step at least."""
    if lever.setting not in room:
        return
    low, high = room[lever.setting]
    ends = set()
    for stride in STRIDES:
        after = min(max(now + lever.sign * stride, low), high)
        if abs(after - now) >= LEAST_MOVE and (after - now) * lever.sign > 0:
            ends.add(after)
    for after in sorted(ends):
        yield Change("", lever.setting, now, after, back=abs(after) < abs(now))


def total(seen: Mapping[str, str]) -> int:
    """How bad a print was, over all that was looked at."""
    return sum(WORTH[grade] for grade in seen.values())
