"""What may be the matter, after prints and looks: sets of up to three matters, each with its chance.

Every set is held against every print as it was made: what was moved or done since the first print counts. A setting
that was moved and was not the matter stands wrong by as much the other way.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from itertools import combinations
from math import exp, log, prod
from operator import add, mul

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.mend.noisy_or import Made, World
from profilesmith.mend.world import (
    GRADES,
    NOT_SEEN,
    SEEN,
    SIZES,
    Lever,
    Matter,
    PrintState,
)

NOTHING = 1e-9
LEAST_KEPT = log(1e-3)  # of the likeliest set
MOST_MATTERS, MOST_SINGLE, MOST_TRIPLE, KEPT = 3, 24, 12, 120
"""Of a set; matters that are looked at together; by threes; sets that are kept."""


class Print(NamedTuple):
    """A print: how it was made, what was seen (trouble -> grade) and which looks were taken (sign -> yes or no)."""

    state: PrintState
    seen: Mapping[str, str]
    looks: Mapping[str, bool] = {}


class Guess(NamedTuple):
    """A set of matters and its chance among all that were looked at."""

    matters: tuple[Matter, ...]
    chance: float


class SeenThen:
    """A print to which many sets of matters are held."""

    def __init__(self, world: World, item: Print) -> None:
        self._world, self._item, self._made = world, item, Made(world, item.state)
        grades = [GRADES[item.seen[name]] if name in item.seen else (1.0, 1.0) for name in world.names]
        self._where_not = [where_not for _, where_not in grades]
        self._more_where_away = [where_away - where_not for where_away, where_not in grades]

    def score(self, matters: tuple[Matter, ...]) -> float:
        """The logarithm of the likelihood of its grades and looks."""
        away = self._made.away(matters)
        return log(prod(map(add, self._where_not, map(mul, away, self._more_where_away)))) + self._looks(matters)

    def _looks(self, matters: tuple[Matter, ...]) -> float:
        if not self._item.looks:
            return 0.0
        live = _live(self._world, matters, self._item.state)
        chances = [(_yes(self._world, live, name), seen) for name, seen in self._item.looks.items()]
        return sum(log(yes if seen else 1 - yes) for yes, seen in chances)


def guesses(world: World, prints: Sequence[Print], of: Collection[Lever] | None = None) -> list[Guess]:
    """The likeliest sets of matters, the likeliest first; chances add up to 1.

    of: supposing that one of these levers stands wrong, and causes a trouble that was seen last; [] where none can.
    """
    matters, seen = _candidates(world, prints), [SeenThen(world, item) for item in prints]
    scores: dict[tuple[Matter, ...], float] = {(): _score(world, (), seen)}
    for matter in matters:
        scores[(matter,)] = _score(world, (matter,), seen)
    matters = sorted(matters, key=lambda item: -scores[(item,)])[:MOST_SINGLE]
    for two in _sets(matters, 2):
        scores[two] = _score(world, two, seen)
    useful = _useful(scores, matters)
    for triple in _sets(useful, MOST_MATTERS):
        scores[triple] = _score(world, triple, seen)
    if of is not None:
        scores = _with_cause(world, scores, prints[-1], of)
    top = max(scores.values(), default=0.0)
    weighed = ((exp(score - top), matters) for matters, score in scores.items() if score - top > LEAST_KEPT)
    best = sorted(weighed, key=lambda item: -item[0])[:KEPT]
    total = sum(weight for weight, _ in best)
    return [Guess(together, weight / total) for weight, together in best]


def _with_cause(
    world: World, scores: Mapping[tuple[Matter, ...], float], last: Print, of: Collection[Lever]
) -> dict[tuple[Matter, ...], float]:
    """The scores, with the chance that a matter of the set causes a trouble that was seen last."""
    scored = {}
    numbers = [number for number, name in enumerate(world.names) if last.seen.get(name, "good") != "good"]
    for matters, score in scores.items():
        named = [matter for matter in matters if matter.lever in of]
        columns = [world.quiet(matter, world.done(matter.lever, last.state)) for matter in named]
        causes = 1 - prod(column[number] for column in columns for number in numbers)
        if causes > NOTHING:
            scored[matters] = score + log(causes)
    return scored


def _candidates(world: World, prints: Sequence[Print]) -> list[Matter]:
    """Every matter that would cause a trouble which was seen."""
    bad = {name for item in prints for name, grade in item.seen.items() if grade != "good"}
    levers = [lever for lever, causes in world.links.items() if bad & causes.keys()]
    return [Matter(lever, steps) for lever in levers for steps in ((1,) if lever.do else [steps for steps, _ in SIZES])]


def _useful(scores: Mapping[tuple[Matter, ...], float], matters: Sequence[Matter]) -> list[Matter]:
    """The matters of the best sets of one and two."""
    useful: dict[Matter, None] = {}
    for key, _ in sorted(scores.items(), key=lambda item: -item[1]):
        useful |= dict.fromkeys(key)
        if len(useful) >= MOST_TRIPLE:
            break
    return list(useful) or list(matters[:MOST_TRIPLE])


def _sets(matters: Sequence[Matter], size: int) -> list[tuple[Matter, ...]]:
    """Sets of different levers; a setting stands wrong in one direction."""
    return [
        together
        for together in combinations(matters, size)
        if len({matter.lever.do or matter.lever.setting for matter in together}) == size
    ]


def _score(world: World, matters: tuple[Matter, ...], prints: Sequence[SeenThen]) -> float:
    """The logarithm of prior times likelihood, up to a constant."""
    return sum(map(world.odds, matters)) + sum(item.score(matters) for item in prints)


def _live(world: World, matters: Sequence[Matter], state: PrintState) -> frozenset[Lever]:
    """The levers of a set that still stand wrong."""
    return frozenset(matter.lever for matter in matters if _stands(world, matter, state))


def _yes(world: World, live: frozenset[Lever], name: str) -> float:
    """The chance that a look says yes: a sign shows where a cause that it speaks for still stands wrong."""
    for_, against = world.signs[name]
    return SEEN if live & for_ else NOT_SEEN / 2 if live & against else NOT_SEEN


def _stands(world: World, matter: Matter, state: PrintState) -> bool:
    done = world.done(matter.lever, state)
    return (
        not done
        if matter.lever.do
        else matter.lever.sign * matter.steps * (matter.lever.sign * matter.steps - done) > 0
    )


def live_levers(world: World, supposed: Sequence[Guess], state: PrintState) -> list[frozenset[Lever]]:
    """For each guess the levers that still stand wrong."""
    return [_live(world, guess.matters, state) for guess in supposed]


def shares_of_yes(world: World, lives: Sequence[frozenset[Lever]], name: str) -> list[float]:
    """For each guess (by its levers that stand wrong) how likely a look would say yes."""
    return [_yes(world, live, name) for live in lives]
