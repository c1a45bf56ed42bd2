"""What may be the matter, after prints and looks: sets of up to three matters, each with its chance.

Every set is held against every print as it was made: what was moved or done since the first print counts. A setting
that was moved and was not the matter stands wrong by as much the other way.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import combinations
from math import exp, log, prod

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.mend.troubles import Knowledge
from profilesmith.mend.world import (
    GRADES,
    LEAK,
    NOT_SEEN,
    SEEN,
    SIZES,
    Lever,
    Matter,
    State,
    links,
    priors,
    shown_by,
    strength,
)

MOST_MATTERS, MOST_SINGLE, MOST_TRIPLE, KEPT = 3, 24, 12, 120
"""Of a set; matters that are looked at together; by threes; sets that are kept."""


class Print(NamedTuple):
    """A print: how it was made, what was seen (trouble -> grade) and which looks were taken (sign -> yes or no)."""

    state: State
    seen: Mapping[str, str]
    looks: Mapping[str, bool] = {}


class Guess(NamedTuple):
    """A set of matters and its chance among all that were looked at."""

    matters: tuple[Matter, ...]
    chance: float


class World:
    """The knowledge as the belief works with it: which troubles each lever causes, for each state of a setting."""

    def __init__(self, known: Knowledge, left_out: frozenset[tuple[str, int]] = frozenset()) -> None:
        self.known = known
        self.names = list(known.troubles)
        self.links = links(known, left_out)
        self.signs = shown_by(known)
        self.priors = priors(known)
        self._quiet: dict[tuple[Matter, float], tuple[float, ...]] = {}

    def quiet(self, matter: Matter, done: float) -> tuple[float, ...]:
        """For each trouble the chance that a matter leaves it alone. done: steps that its setting was moved; 1 for a
        doing done.
        """
        key = matter, done
        found = self._quiet.get(key)
        if found is None:
            found = self._quiet[key] = tuple(self._alone(matter, done, name) for name in self.names)
        return found

    def _alone(self, matter: Matter, done: float, name: str) -> float:
        lever = matter.lever
        if lever.do:
            return 1 - (0.0 if done else self.links[lever].get(name, 0.0))
        need = lever.sign * matter.steps - done
        side = Lever(setting=lever.setting, sign=1 if need > 0 else -1)
        return 1 - self.links.get(side, {}).get(name, 0.0) * strength(
            abs(need), past=need * lever.sign * matter.steps <= 0
        )

    def done(self, lever: Lever, state: State) -> float:
        return float(lever.do in state.done) if lever.do else state.moved.get(lever.setting, 0.0)

    def away(self, matters: Sequence[Matter], state: State) -> list[float]:
        """For each trouble the chance that it stays away."""
        named = {matter.lever.setting for matter in matters}
        every = [*matters, *(Matter(Lever(setting=name, sign=1), 0) for name in state.moved if name not in named)]
        columns = [self.quiet(matter, self.done(matter.lever, state)) for matter in every]
        return [(1 - LEAK) * prod(column) for column in zip(*columns, strict=True)] or [1 - LEAK] * len(self.names)


def guesses(world: World, prints: Sequence[Print]) -> list[Guess]:
    """The likeliest sets of matters, the likeliest first; chances add up to 1."""
    matters = _candidates(world, prints)
    scores: dict[tuple[Matter, ...], float] = {(): _score(world, (), prints)}
    for matter in matters:
        scores[(matter,)] = _score(world, (matter,), prints)
    matters = sorted(matters, key=lambda item: -scores[(item,)])[:MOST_SINGLE]
    for pair in _sets(matters, 2):
        scores[pair] = _score(world, pair, prints)
    useful = _useful(scores, matters)
    for triple in _sets(useful, MOST_MATTERS):
        scores[triple] = _score(world, triple, prints)
    top = max(scores.values())
    best = sorted(((exp(score - top), matters) for matters, score in scores.items()), key=lambda item: -item[0])[:KEPT]
    total = sum(weight for weight, _ in best)
    return [Guess(found, weight / total) for weight, found in best]


def _candidates(world: World, prints: Sequence[Print]) -> list[Matter]:
    """Every matter that would cause a trouble which was seen."""
    bad = {name for item in prints for name, grade in item.seen.items() if grade != "good"}
    levers = [lever for lever, causes in world.links.items() if bad & causes.keys()]
    return [Matter(lever, steps) for lever in levers for steps in ((1,) if lever.do else [steps for steps, _ in SIZES])]


def _useful(scores: Mapping[tuple[Matter, ...], float], matters: Sequence[Matter]) -> list[Matter]:
    """The matters of the best sets of one and two."""
    found: dict[Matter, None] = {}
    for key, _ in sorted(scores.items(), key=lambda item: -item[1]):
        found |= dict.fromkeys(key)
        if len(found) >= MOST_TRIPLE:
            break
    return list(found) or list(matters[:MOST_TRIPLE])


def _sets(matters: Sequence[Matter], size: int) -> list[tuple[Matter, ...]]:
    """Sets of different levers; a setting stands wrong in one direction."""
    return [
        found
        for found in combinations(matters, size)
        if len({matter.lever.do or matter.lever.setting for matter in found}) == size
    ]


def _score(world: World, matters: tuple[Matter, ...], prints: Sequence[Print]) -> float:
    """The logarithm of prior times likelihood, up to a constant."""
    sizes = dict(SIZES)
    total = 0.0
    for matter in matters:
        share = world.priors[matter.lever] * (1.0 if matter.lever.do else sizes[matter.steps])
        total += log(share / (1 - share))
    for item in prints:
        total += _grades(world, matters, item) + _looks(world, matters, item)
    return total


def _grades(world: World, matters: tuple[Matter, ...], item: Print) -> float:
    away = world.away(matters, item.state)
    total = 0.0
    for name, chance in zip(world.names, away, strict=True):
        grade = item.seen.get(name)
        if grade is not None:
            where_away, where_not = GRADES[grade]
            total += log(chance * where_away + (1 - chance) * where_not)
    return total


def _looks(world: World, matters: tuple[Matter, ...], item: Print) -> float:
    total, live = 0.0, _live(world, matters, item.state) if item.looks else frozenset[Lever]()
    for name, seen in item.looks.items():
        yes = _yes(world, live, name)
        total += log(yes if seen else 1 - yes)
    return total


def _live(world: World, matters: Sequence[Matter], state: State) -> frozenset[Lever]:
    """The levers of a set that still stand wrong."""
    return frozenset(matter.lever for matter in matters if _stands(world, matter, state))


def _yes(world: World, live: frozenset[Lever], name: str) -> float:
    """The chance that a look says yes: a sign shows where a cause that it speaks for still stands wrong."""
    for_, against = world.signs[name]
    return SEEN if live & for_ else NOT_SEEN / 2 if live & against else NOT_SEEN


def _stands(world: World, matter: Matter, state: State) -> bool:
    done = world.done(matter.lever, state)
    return (
        not done
        if matter.lever.do
        else matter.lever.sign * matter.steps * (matter.lever.sign * matter.steps - done) > 0
    )


def live_levers(world: World, found: Sequence[Guess], state: State) -> list[frozenset[Lever]]:
    """For each guess the levers that still stand wrong."""
    return [_live(world, guess.matters, state) for guess in found]


def shares_of_yes(world: World, lives: Sequence[frozenset[Lever]], name: str) -> list[float]:
    """For each guess (by its levers that stand wrong) how likely a look would say yes."""
    return [_yes(world, live, name) for live in lives]


def after_look(world: World, found: Sequence[Guess], state: State, name: str, seen: bool) -> list[Guess]:
    """The guesses once a look was taken."""
    shares = shares_of_yes(world, live_levers(world, found, state), name)
    weights = [guess.chance * (share if seen else 1 - share) for guess, share in zip(found, shares, strict=True)]
    total = sum(weights)
    return [guess._replace(chance=weight / total) for guess, weight in zip(found, weights, strict=True)]
