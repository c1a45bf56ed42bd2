"""Whether a good state exists at all: a search that knows the truth. No advisor sees it."""

from __future__ import annotations

from collections.abc import Iterator

from tests.benchmarks.second_workshop.causes import DOINGS, Hidden
from tests.benchmarks.second_workshop.profile import Bounds, Settings
from tests.benchmarks.second_workshop.strengths import GOOD, strengths

SHARES = (-0.4, -0.15, -0.05, 0.05, 0.15, 0.4)
ROUNDS = 40

Way = tuple[dict[str, float], tuple[str, ...]]


def way_out(hidden: Hidden, settings: Settings, bounds: Bounds, hours: float) -> Way | None:
    """Settings and doings that make every trouble good; None where the descent ends before."""
    here: Way = (dict(settings), ())
    left = _left(hidden, here, hours)
    for _ in range(ROUNDS):
        if left == 0:
            return here
        after, best = min(((_left(hidden, way, hours), way) for way in _next(here, bounds)), key=lambda tried: tried[0])
        if after >= left:
            return None
        left, here = after, best
    return None


def _left(hidden: Hidden, way: Way, hours: float) -> float:
    """What lies above 95 % of the limit, squared, so that the worst counts most."""
    excess = (max(0.0, strength - 0.95 * GOOD) for strength in strengths(hidden, *way, hours).values())
    return sum(value * value for value in excess)


def _next(way: Way, bounds: Bounds) -> Iterator[Way]:
    settings, done = way
    for doing in DOINGS:
        if doing not in done:
            yield settings, (*done, doing)
    for name, (low, high) in bounds.items():
        for share in SHARES:
            value = min(high, max(low, settings[name] + share * (high - low)))
            if value != settings[name]:
                yield {**settings, name: value}, done
