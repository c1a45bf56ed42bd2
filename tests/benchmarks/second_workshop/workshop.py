"""One invented workshop: what the maker knows, what a print shows to noisy eyes, what a look answers, and the truth.

The noise of a print belongs to that print: looking twice at the same print says the same again.
"""

from __future__ import annotations

import random
from collections.abc import Collection, Mapping
from functools import lru_cache
from typing import NamedTuple

from tests.benchmarks.second_workshop.causes import Hidden, a_workshop
from tests.benchmarks.second_workshop.mendable import way_out
from tests.benchmarks.second_workshop.profile import Settings, a_profile, bounds_of
from tests.benchmarks.second_workshop.strengths import GOOD, POOR, State, hours_of, state_of, strengths
from tests.benchmarks.workshop.workshop import Brief

GRADES = ("good", "fair", "poor")
DRAWS = 200


class Eyes(NamedTuple):
    """blur: standard deviation of a strength as it is seen. slip: share of grades off by one. miss: of wrong looks."""

    blur: float
    slip: float
    miss: float


class Drawn(NamedTuple):
    """All of a workshop that does not change, without its first print."""

    brief: Brief
    hidden: Hidden
    eyes: Eyes
    hours: float


class Workshop:
    """Opened anew for each advisor; counts its prints, since each has noise of its own."""

    def __init__(self, seed: int, drawn: Drawn) -> None:
        self._seed, self._drawn, self._prints = seed, drawn, 0

    @classmethod
    def opened(cls, seed: int) -> Workshop:
        return cls(seed, _mendable(seed))

    @property
    def brief(self) -> Brief:
        return self._drawn.brief

    def print(self, settings: Settings, done: Collection[str]) -> dict[str, str]:
        """Trouble: what the maker's eyes say of it. Each call is one more print."""
        self._prints += 1
        return _seen(self._drawn, self.strengths(settings, done), random.Random(f"second {self._seed} {self._prints}"))

    def look(self, sign: str, settings: Settings, done: Collection[str]) -> bool:
        """Whether the sign shows, as the maker answers; a sign that this world lacks is answered by mistakes alone."""
        dice = random.Random(f"second {self._seed} {self._prints} {sign}")
        shows = sign in _signs(state_of(self._drawn.hidden, settings, done), self.strengths(settings, done))
        return shows != (dice.random() < self._drawn.eyes.miss)

    def is_good(self, settings: Settings, done: Collection[str]) -> bool:
        return is_good(self.strengths(settings, done))

    def strengths(self, settings: Settings, done: Collection[str]) -> dict[str, float]:
        """The truth, for the judge and for tests."""
        return strengths(self._drawn.hidden, settings, done, self._drawn.hours)

    def way_out(self) -> tuple[dict[str, float], tuple[str, ...]] | None:
        """One good state within the bounds, for tests."""
        return way_out(self._drawn.hidden, self.brief.settings, self.brief.bounds, self._drawn.hours)


def is_good(truth: Mapping[str, float]) -> bool:
    return all(strength <= GOOD for strength in truth.values())


@lru_cache(maxsize=2048)
def _mendable(seed: int) -> Drawn:
    """Draws until the first print is bad, shows it, and can be mended."""
    dice = random.Random(f"second {seed}")
    for _ in range(DRAWS):
        drawn = _drawn(dice)
        truth = strengths(drawn.hidden, drawn.brief.settings, (), drawn.hours)
        seen = _seen(drawn, truth, random.Random(f"second {seed} 1"))
        if is_good(truth) or set(seen.values()) == {"good"}:
            continue
        if way_out(drawn.hidden, drawn.brief.settings, drawn.brief.bounds, drawn.hours):
            return drawn
    raise AssertionError(f"seed {seed}: no workshop in {DRAWS} draws that can be mended")


def _drawn(dice: random.Random) -> Drawn:
    drive = dice.choices(("direct", "remote"), (7, 3))[0]
    settings = a_profile(dice, drive)
    bounds = bounds_of(settings, dice)
    hidden = a_workshop(dice, settings, drive)
    eyes = Eyes(dice.uniform(0.03, 0.1), dice.uniform(0, 0.02), dice.uniform(0.03, 0.15))
    facts = {"machine.drive": drive, "spool.material": "flexible PLA" if hidden.softness < 1 else "TPU"}
    return Drawn(Brief(settings, bounds, facts), hidden, eyes, hours_of(settings))


def _seen(drawn: Drawn, truth: Mapping[str, float], dice: random.Random) -> dict[str, str]:
    seen = {}
    for trouble, strength in truth.items():
        shown = strength + dice.gauss(0, drawn.eyes.blur)
        grade = 0 if shown <= GOOD else 1 if shown <= POOR else 2
        if dice.random() < drawn.eyes.slip:
            grade = min(2, max(0, grade + dice.choice((-1, 1))))
        seen[trouble] = GRADES[grade]
    return seen


def _signs(state: State, truth: Mapping[str, float]) -> set[str]:
    strings = truth["stringing"] > GOOD
    shows = {
        "hiss": state.damp > 0.35,
        "drops": strings and (state.short > 0.4 or state.warm > 7),
        "fine hair": strings and state.damp > 0.35,
        "gear marks": state.slip > 0.3 and (state.idler > 0.4 or state.short < -0.4),
        "gears turn and nothing comes": truth["slipped filament"] > POOR,
        "strand in a loop at the gears": truth["buckled at the drive"] > 0.5,
        "finger marks on the bed": state.dirt > 0.4,
        "matt walls": state.warm < -5 or state.damp > 0.6,
        "only the first layers": truth["bottom bulges"] > GOOD and state.laid < 1.04,
    }
    return {sign for sign, shown in shows.items() if shown}
