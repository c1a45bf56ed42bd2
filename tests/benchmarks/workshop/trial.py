"""Many workshops, one advisor: how many print well after how many prints, and whether a bound was broken."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any, NamedTuple, Protocol

from tests.benchmarks.workshop.workshop import Advisor, Brief, Workshop

Make = Callable[[Brief], Advisor]


class Opens(Protocol):
    """The class of a world: ``opened(seed)`` gives a workshop with brief, print, look, is_good, as README.md says."""

    def opened(self, seed: int) -> Any: ...


class Result(NamedTuple):
    """good: of ``workshops``, how many were truly good after each print. broken: settings outside their bounds."""

    workshops: int
    good: tuple[int, ...]
    broken: int
    gave_up: int


def trial(make: Make, workshops: int, prints: int, first_seed: int = 1, world: Opens = Workshop) -> Result:
    """The first print is the profile's own; each further one follows one piece of advice."""
    good, broken, gave_up = [0] * prints, 0, 0
    for seed in range(first_seed, first_seed + workshops):
        states, outside, ended = _evening(world.opened(seed), make, prints)
        broken += outside
        gave_up += ended
        good = [count + state for count, state in zip(good, states, strict=True)]
    return Result(workshops, tuple(good), broken, gave_up)


def _evening(workshop: Any, make: Make, prints: int) -> tuple[list[bool], int, bool]:
    """After k pieces of advice, whether what would be printed is good; the maker stops where all is called good."""
    brief = workshop.brief
    advise = make(brief)
    settings: dict[str, float] = dict(brief.settings)
    done: tuple[str, ...] = ()
    states: list[bool] = []
    outside, ended = 0, False
    while len(states) < prints:
        seen = workshop.print(settings, done)
        content = all(grade == "good" for grade in seen.values())
        look = partial(workshop.look, settings=settings, done=done)
        step = None if content or ended else advise(seen, settings, look)
        ended = ended or (step is None and not content)
        if step is not None:
            settings = {**settings, **step.settings}
            done = (*done, step.done) if step.done else done
            outside += sum(
                not brief.bounds[name][0] <= value <= brief.bounds[name][1] for name, value in settings.items()
            )
        states.append(workshop.is_good(settings, done))
    return states, outside, ended
