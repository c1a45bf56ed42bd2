"""The next change: what is likeliest to leave a print without troubles, one lever at a time, inside the room that there is.

Never: out of the room; a state that was printed already; a move that made it worse. States are finite, so it ends.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from math import log, prod
from typing import NamedTuple

from profilesmith.mend.belief import Guess, Print, World, after_look, guesses, sign_chances
from profilesmith.mend.troubles import Cause, Trouble
from profilesmith.mend.world import Lever, State, lever_of

Room = Mapping[str, tuple[float, float]]
"""Setting -> the lowest and highest it may be moved, in steps from where it began. A setting without room is not moved."""
STRIDES = (1.0, 2.0)
WORTH = {"good": 0, "fair": 1, "poor": 2}
LEAST_GAIN = 0.01  # in the chance that all is well: less is no advice
SHARE_OF_TROUBLES = 0.5  # of the value that counts how many troubles go, where all will not go at once
LOOK_WORTH = 0.05  # nats


class Change(NamedTuple):
    """One lever's change. do: a doing; else setting, from where to where, in steps from where it began. back: it goes back."""

    do: str = ""
    setting: str = ""
    before: float = 0.0
    after: float = 0.0
    back: bool = False

    @property
    def lever(self) -> Lever:
        return Lever(do=self.do) if self.do else Lever(setting=self.setting, sign=1 if self.after > self.before else -1)


class Option(NamedTuple):
    """Changes that are made together (one, and perhaps the last one taken back), the state after them, and their worth.

    worth: the chance that the next print has no trouble, with some credit for each trouble that goes; gain: over staying.
    """

    changes: tuple[Change, ...]
    state: State
    worth: float
    gain: float


class Advice(NamedTuple):
    """options: the best first; () when nothing is worth a print. look: the sign that would tell most, or "".

    guesses: what may be the matter. chance: that nothing is the matter that a change here could mend.
    """

    options: tuple[Option, ...]
    look: str
    guesses: tuple[Guess, ...]


def advise(
    world: World,
    prints: Sequence[Print],
    room: Room,
    worse: frozenset[Lever] = frozenset(),
    found: Sequence[Guess] | None = None,
    beside: Sequence[Change] = (),
) -> Advice:
    """What to change after the last of the prints. worse: levers whose move made it worse.

    found: what may be the matter, where that is worked out already (as after a look). beside: changes that are made anyway.
    """
    found = guesses(world, prints) if found is None else found
    state = carried_out(prints[-1].state, beside)
    printed = {_key(item.state) for item in prints}
    now = _worth(world, found, state)
    options = []
    bound_back = None if beside else _taken_back(prints, worse)
    if beside:
        every = _more(world, found, state, room, worse, beside)
    else:
        every = _changes(world, found, prints, room, worse, bound_back)
    for changes in every:
        changed = carried_out(state, changes)
        if _key(changed) not in printed or changes == (bound_back,):
            worth = _worth(world, found, changed)
            options.append(Option(changes, changed, worth, worth - now))
    options.sort(key=lambda item: (-item.worth, len(item.changes), item.changes))
    kept = tuple(item for item in _by_lever(options) if item.gain >= LEAST_GAIN or item.changes == (bound_back,))
    asked = {name for item in prints if item.state == state for name in item.looks}
    return Advice(kept, best_look(world, found, state, asked, kept), tuple(found))


def carried_out(state: State, changes: Sequence[Change]) -> State:
    """The state after some changes."""
    moved = {**state.moved, **{item.setting: item.after for item in changes if item.setting}}
    return State(
        {name: steps for name, steps in moved.items() if steps}, state.done | {item.do for item in changes if item.do}
    )


def _key(state: State) -> tuple[object, ...]:
    return tuple(sorted(state.moved.items())), state.done


def _by_lever(options: Sequence[Option]) -> Iterator[Option]:
    """The best option of each lever: the others differ in size alone."""
    seen = set()
    for option in options:
        lever = option.changes[-1].lever
        if lever not in seen:
            seen.add(lever)
            yield option


def _changes(
    world: World,
    found: Sequence[Guess],
    prints: Sequence[Print],
    room: Room,
    worse: frozenset[Lever],
    bound_back: Change | None,
) -> Iterator[tuple[Change, ...]]:
    """Every change that is open, alone, and beside the last one taken back where that one did no good.

    bound_back: the last one, where it made things worse: then it is taken back in any case.
    """
    singles = list(_singles(world, found, prints[-1].state, room, worse))
    undone = _undone(prints)
    if bound_back is None:
        yield from ((change,) for change in singles)
    if undone is not None:
        yield (undone,)
        for change in singles:
            if change.do or change.setting != undone.setting:
                yield (undone, change)
            elif bound_back is not None and abs(change.after - undone.before) > abs(undone.after - undone.before):
                yield (change,)  # past where it stood before: it turns round


def _taken_back(prints: Sequence[Print], worse: frozenset[Lever]) -> Change | None:
    """The last change taken back, where that very move is known to have made it worse."""
    undone = _undone(prints)
    if undone is None:
        return None
    made = Lever(setting=undone.setting, sign=1 if undone.before > undone.after else -1)
    return undone if made in worse else None


def _more(
    world: World, found: Sequence[Guess], state: State, room: Room, worse: frozenset[Lever], beside: Sequence[Change]
) -> Iterator[tuple[Change, ...]]:
    """Every change of another setting than those that are made anyway."""
    named = {change.setting for change in beside}
    yield from (
        (change,) for change in _singles(world, found, state, room, worse) if change.do or change.setting not in named
    )


def _undone(prints: Sequence[Print]) -> Change | None:
    """The last change taken back, where it moved one setting and the print got no better."""
    if len(prints) < 2 or total(prints[-1].seen) < total(prints[-2].seen):
        return None
    now, then = prints[-1].state.moved, prints[-2].state.moved
    moved = [name for name in now.keys() | then.keys() if now.get(name, 0.0) != then.get(name, 0.0)]
    if len(moved) != 1:
        return None
    return Change("", moved[0], now.get(moved[0], 0.0), then.get(moved[0], 0.0), back=True)


def _singles(
    world: World, found: Sequence[Guess], state: State, room: Room, worse: frozenset[Lever]
) -> Iterator[Change]:
    levers = dict.fromkeys(matter.lever for guess in found for matter in guess.matters)
    # What was moved may go back, too: that is a lever of its own.
    levers |= dict.fromkeys(Lever(setting=name, sign=-1 if steps > 0 else 1) for name, steps in state.moved.items())
    for lever in levers:
        if lever in worse:
            continue
        if lever.do:
            if lever.do not in state.done:
                yield Change(do=lever.do)
            continue
        yield from _moves(lever, state.moved.get(lever.setting, 0.0), room)


def _moves(lever: Lever, now: float, room: Room) -> Iterator[Change]:
    """A setting moved by one step or two, or as far as there is room when that is half a step at least."""
    if lever.setting not in room:
        return
    low, high = room[lever.setting]
    ends = set()
    for stride in STRIDES:
        after = min(max(now + lever.sign * stride, low), high)
        if abs(after - now) >= 0.5 and (after - now) * lever.sign > 0:
            ends.add(after)
    for after in sorted(ends):
        yield Change("", lever.setting, now, after, back=abs(after) < abs(now))


def _worth(world: World, found: Sequence[Guess], state: State) -> float:
    """The expected worth of a print in that state."""
    worth = 0.0
    for guess in found:
        away = world.away(guess.matters, state)
        worth += guess.chance * ((1 - SHARE_OF_TROUBLES) * prod(away) + SHARE_OF_TROUBLES * (1 - len(away) + sum(away)))
    return worth


def total(seen: Mapping[str, str]) -> int:
    """How bad a print was, over all that was looked at."""
    return sum(WORTH[grade] for grade in seen.values())


def best_look(world: World, found: Sequence[Guess], state: State, asked: set[str], options: Sequence[Option]) -> str:
    """The look that would tell most about which of the proposed levers is the matter, or "" when none tells much."""
    levers = [option.changes[-1].lever for option in options[:4]]
    before = _split(found, levers)
    best, name = LOOK_WORTH, ""
    for sign in world.known.signs:
        if sign in asked:
            continue
        chance = sign_chances(world, found, state, sign)
        left = chance * _split(after_look(world, found, state, sign, True), levers)
        left += (1 - chance) * _split(after_look(world, found, state, sign, False), levers)
        if before - left > best:
            best, name = before - left, sign
    return name


def _split(found: Sequence[Guess], levers: Sequence[Lever]) -> float:
    """How unsure it is whether each lever is the matter: entropies added up, in nats."""
    entropy = 0.0
    for lever in levers:
        share = sum(guess.chance for guess in found if any(matter.lever == lever for matter in guess.matters))
        entropy -= sum(part * log(part) for part in (share, 1 - share) if part > 1e-12)
    return entropy


def reason_of(world: World, change: Change, seen: Mapping[str, str]) -> tuple[Trouble, Cause] | None:
    """The trouble that a change is for, and its cause: the worst that was seen whose cause that lever is; of these the likeliest."""
    ranked = [
        (-WORTH[seen.get(trouble.name, "good")], rank, trouble, cause)
        for trouble in world.known.troubles.values()
        for rank, cause in enumerate(trouble.causes)
        if lever_of(cause) == change.lever
    ]
    if not ranked:
        return None
    _, _, trouble, cause = min(ranked, key=lambda item: item[:2])
    return trouble, cause
