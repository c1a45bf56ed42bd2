"""What changes are worth: the chance that the next print has no trouble, over all that may be the matter."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import prod

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.mend.belief import Guess
from profilesmith.mend.changes import Change, carried_out
from profilesmith.mend.noisy_or import Made, World
from profilesmith.mend.world import Lever, PrintState

SHARE_OF_TROUBLES = 0.5  # of the value that counts how many troubles go, where all will not go at once


class Option(NamedTuple):
    """Changes that are made together (one, and perhaps the last one taken back), the state after them, and their worth.

    worth: the chance that the next print has no trouble, with some credit for each trouble that goes; gain: over
    staying.
    """

    changes: tuple[Change, ...]
    state: PrintState
    worth: float
    gain: float


def options(
    world: World, supposed: Sequence[Guess], state: PrintState, every: Sequence[tuple[Change, ...]]
) -> list[Option]:
    """What each of the changes is worth: the best of each lever (the others differ in size alone), the best first.

    A doing takes a maker hours (drying) or tools: it comes before the best setting only where it is the likelier
    matter.
    """
    now, made = _worth(world, supposed, state), []
    for changes in every:
        changed = carried_out(state, changes)
        worth = _worth(world, supposed, changed)
        made.append(Option(changes, changed, worth, worth - now))
    made.sort(key=lambda item: (-item.worth, len(item.changes), item.changes))
    return _likelier_first(supposed, list(_by_lever(made)))


def _likelier_first(supposed: Sequence[Guess], made: list[Option]) -> list[Option]:
    place = next((number for number, item in enumerate(made) if not item.changes[-1].do), len(made))
    if place in (0, len(made)):
        return made
    least = chance_of(supposed, made[place].changes[-1].lever)
    late = [item for item in made[:place] if chance_of(supposed, item.changes[-1].lever) < least]
    early = [item for item in made[:place] if item not in late]
    return [*early, made[place], *late, *made[place + 1 :]]


def chance_of(supposed: Sequence[Guess], lever: Lever) -> float:
    """How likely a lever is the matter."""
    return sum(guess.chance for guess in supposed if names(guess, lever))


def names(guess: Guess, lever: Lever) -> bool:
    return any(matter.lever == lever for matter in guess.matters)


def _by_lever(made: Sequence[Option]) -> Iterator[Option]:
    seen = set()
    for option in made:
        lever = option.changes[-1].lever
        if lever not in seen:
            seen.add(lever)
            yield option


def _worth(world: World, supposed: Sequence[Guess], state: PrintState) -> float:
    """The expected worth of a print in that state."""
    worth, made = 0.0, Made(world, state)
    for guess in supposed:
        away = made.away(guess.matters)
        worth += guess.chance * ((1 - SHARE_OF_TROUBLES) * prod(away) + SHARE_OF_TROUBLES * (1 - len(away) + sum(away)))
    return worth


def all_well(world: World, supposed: Sequence[Guess], state: PrintState) -> float:
    """The chance that a print in that state has no trouble."""
    made = Made(world, state)
    return sum(guess.chance * prod(made.away(guess.matters)) for guess in supposed)
