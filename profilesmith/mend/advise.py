"""The next change: what is likeliest to leave a print without troubles, one lever at a time, inside the room that there
is.

Never: out of the room; a state that was printed already; a move that made it worse. States are finite, so it ends.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from math import log, prod

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.mend.belief import Guess, Print, World, guesses, live_levers, shares_of_yes
from profilesmith.mend.changes import WORTH, Change, Room, carried_out, further_changes, open_changes, taken_back
from profilesmith.mend.troubles import Cause, Trouble
from profilesmith.mend.world import Lever, State, lever_of

LEAST_GAIN = 0.01  # in the chance that all is well: less is no advice
SHARE_OF_TROUBLES = 0.5  # of the value that counts how many troubles go, where all will not go at once
LOOK_WORTH = 0.05  # nats


class Option(NamedTuple):
    """Changes that are made together (one, and perhaps the last one taken back), the state after them, and their worth.

    worth: the chance that the next print has no trouble, with some credit for each trouble that goes; gain: over
    staying.
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

    found: what may be the matter, where that is worked out already (as after a look). beside: changes that are made
    anyway.
    """
    found = guesses(world, prints) if found is None else found
    state = carried_out(prints[-1].state, beside)
    printed = {_key(item.state) for item in prints}
    now = _worth(world, found, state)
    options = []
    bound_back = None if beside else taken_back(prints, worse)
    if beside:
        every = further_changes(found, state, room, worse, beside)
    else:
        every = open_changes(found, prints, room, worse, bound_back)
    for changes in every:
        changed = carried_out(state, changes)
        if _key(changed) not in printed or changes == (bound_back,):
            worth = _worth(world, found, changed)
            options.append(Option(changes, changed, worth, worth - now))
    options.sort(key=lambda item: (-item.worth, len(item.changes), item.changes))
    kept = tuple(item for item in _by_lever(options) if item.gain >= LEAST_GAIN or item.changes == (bound_back,))
    asked = {name for item in prints if item.state == state for name in item.looks}
    return Advice(kept, best_look(world, found, state, asked, kept), tuple(found))


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


def _worth(world: World, found: Sequence[Guess], state: State) -> float:
    """The expected worth of a print in that state."""
    worth = 0.0
    for guess in found:
        away = world.away(guess.matters, state)
        worth += guess.chance * ((1 - SHARE_OF_TROUBLES) * prod(away) + SHARE_OF_TROUBLES * (1 - len(away) + sum(away)))
    return worth


def best_look(world: World, found: Sequence[Guess], state: State, asked: set[str], options: Sequence[Option]) -> str:
    """The look that would tell most about which of the proposed levers is the matter, or "" when none tells much."""
    levers = [option.changes[-1].lever for option in options[:4]]
    named = [[number for number, guess in enumerate(found) if _names(guess, lever)] for lever in levers]
    chances, lives = [guess.chance for guess in found], live_levers(world, found, state)
    before = _split(chances, named)
    best, name = LOOK_WORTH, ""
    for sign in world.known.signs:
        if sign in asked:
            continue
        yes = [chance * share for chance, share in zip(chances, shares_of_yes(world, lives, sign), strict=True)]
        no = [chance - part for chance, part in zip(chances, yes, strict=True)]
        left = sum(sum(side) * _split(side, named) for side in (yes, no))
        if before - left > best:
            best, name = before - left, sign
    return name


def _names(guess: Guess, lever: Lever) -> bool:
    return any(matter.lever == lever for matter in guess.matters)


def _split(weights: Sequence[float], named: Sequence[Sequence[int]]) -> float:
    """How unsure it is whether each lever is the matter: entropies added up, in nats. named: the guesses that
    name it.
    """
    total, entropy = sum(weights), 0.0
    for numbers in named:
        share = sum(weights[number] for number in numbers) / total
        entropy -= sum(part * log(part) for part in (share, 1 - share) if part > 1e-12)
    return entropy


def reason_of(world: World, change: Change, seen: Mapping[str, str]) -> tuple[Trouble, Cause] | None:
    """The trouble that a change is for, and its cause: the worst that was seen whose cause that lever is; of these the
    likeliest.
    """
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
