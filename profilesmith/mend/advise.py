"""The next change: what is likeliest to leave a print without troubles, one lever at a time, inside the room that there
is.

Never: out of the room; a state that was printed already; a move that made it worse. States are finite, so it ends.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from math import log

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.mend.belief import Guess, Print, guesses, live_levers, shares_of_yes
from profilesmith.mend.changes import (
    WORTH,
    Change,
    Room,
    carried_out,
    further_changes,
    open_changes,
    open_levers,
    taken_back,
)
from profilesmith.mend.noisy_or import World
from profilesmith.mend.options import Option, all_well, names, options
from profilesmith.mend.troubles import Trouble, TroubleCause
from profilesmith.mend.world import Lever, PrintState, lever_of

LEAST_GAIN = 0.01  # in the chance that all is well: less is no advice
LIKELY_WELL = 0.5  # the chance that nothing is the matter, above which a print as it is tells first
LOOK_WORTH = 0.05  # nats


class Advice(NamedTuple):
    """options: the best first; () when nothing is left to try. look: the sign that would tell most, or "".

    guesses: what may be the matter. again: it is likelier than not that nothing is the matter and the eye slipped, so
    one more print as it is would tell first. unlikely: little speaks for the options; they are what is left of the
    causes of what was seen.
    """

    options: tuple[Option, ...]
    look: str
    guesses: tuple[Guess, ...]
    again: bool = False
    unlikely: bool = False


def advise(
    world: World,
    prints: Sequence[Print],
    room: Room,
    worse: frozenset[Lever] = frozenset(),
    supposed: Sequence[Guess] | None = None,
    beside: Sequence[Change] = (),
) -> Advice:
    """What to change after the last of the prints. worse: levers whose move made it worse.

    found: what may be the matter, where that is worked out already (as after a look). beside: changes that are made
    anyway.
    """
    supposed = guesses(world, prints) if supposed is None else supposed
    state = carried_out(prints[-1].state, beside)
    bound_back = None if beside else taken_back(prints, worse)
    if beside:
        every = list(further_changes(supposed, prints[-1].state, room, worse, beside))
    else:
        every = list(open_changes(supposed, prints, room, worse, bound_back))
    new = options(world, supposed, state, _not_printed(prints, state, every, bound_back))
    kept = tuple(item for item in new if item.gain >= LEAST_GAIN or item.changes == (bound_back,))
    if not kept and not beside and any(grade != "good" for grade in prints[-1].seen.values()):
        return _what_is_left(world, prints, room, worse, supposed)
    return Advice(kept, best_look(world, supposed, state, _told(world, prints), kept), tuple(supposed))


def _what_is_left(
    world: World, prints: Sequence[Print], room: Room, worse: frozenset[Lever], matters: Sequence[Guess]
) -> Advice:
    """Where a trouble stands and no change is worth a print by what is believed, the belief may be wrong: what was seen
    is taken for true and for the work of what may still be moved or done, and the best of that comes. Before it, once,
    the same again: where all is likely well, the eye slipped.
    """
    state, seen = prints[-1].state, prints[-1].seen
    levers = [lever for lever, of in world.links.items() if any(seen.get(name, "good") != "good" for name in of)]
    supposed = guesses(world, prints, open_levers(levers, state, room, worse))
    every = _not_printed(prints, state, open_changes(supposed, prints, room, worse, None), None)
    left = tuple(item for item in options(world, supposed, state, every) if item.gain > 0)
    again = all_well(world, matters, state) > LIKELY_WELL and sum(item.state == state for item in prints) == 1
    look = best_look(world, supposed, state, _told(world, prints), left) if left else ""
    return Advice(left, look, tuple(matters), again, bool(left))


def _not_printed(
    prints: Sequence[Print], state: PrintState, every: Iterable[tuple[Change, ...]], bound_back: Change | None
) -> list[tuple[Change, ...]]:
    """The changes to a state that was not printed yet; a move that made it worse goes back in any case."""
    printed = {_key(item.state) for item in prints}
    return [item for item in every if item == (bound_back,) or _key(carried_out(state, item)) not in printed]


def _told(world: World, prints: Sequence[Print]) -> set[str]:
    """The looks that were taken of the present state, and those that are for troubles which are not there."""
    bad = {name for name, grade in prints[-1].seen.items() if grade != "good"}
    causes = [cause for name in bad & world.known.troubles.keys() for cause in world.known.troubles[name].causes]
    of_bad = {name for cause in causes for name in (*cause.speaks_for, *cause.speaks_against)}
    asked = {name for item in prints if item.state == prints[-1].state for name in item.looks}
    return asked | (world.known.signs.keys() - of_bad)


def _key(state: PrintState) -> tuple[object, ...]:
    return tuple(sorted(state.moved.items())), state.done


def best_look(
    world: World, supposed: Sequence[Guess], state: PrintState, asked: set[str], made: Sequence[Option]
) -> str:
    """The look that would tell most about which of the proposed levers is the matter, or "" when none tells much."""
    levers = [option.changes[-1].lever for option in made[:4]]
    named = [[number for number, guess in enumerate(supposed) if names(guess, lever)] for lever in levers]
    chances, lives = [guess.chance for guess in supposed], live_levers(world, supposed, state)
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


def _split(weights: Sequence[float], named: Sequence[Sequence[int]]) -> float:
    """How unsure it is whether each lever is the matter: entropies added up, in nats. named: the guesses that
    name it.
    """
    total, entropy = sum(weights), 0.0
    for numbers in named:
        share = sum(weights[number] for number in numbers) / total
        entropy -= sum(part * log(part) for part in (share, 1 - share) if part > 1e-12)
    return entropy


def reason_of(world: World, change: Change, seen: Mapping[str, str]) -> tuple[Trouble, TroubleCause] | None:
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
