"""One workshop: a profile that should have worked, secrets, prints and the eyes that look at them."""

from __future__ import annotations

import random
from collections.abc import Callable, Mapping
from typing import NamedTuple

from tests.benchmarks.workshop.causes import Hidden, Settings, after, deviate, troubles, usual

GOOD, POOR = 0.35, 0.8
SPREAD, SLIPS = 0.12, 0.03  # of the eyes: a usual eye, one slip in 33 looks
SETTINGS: Mapping[str, tuple[float, float, float]] = {
    "nozzle.temperature": (215, 205, 230),
    "bed.temperature": (45, 25, 65),
    "retraction.distance": (1.5, 0, 4),
    "outer_wall.speed": (40, 8, 40),
    "first_layer.speed": (20, 8, 20),
    "travel.speed": (120, 40, 200),
    "fan.power": (50, 0, 100),
    "bead.flow": (100, 90, 110),
    "raft.gap": (0.22, 0.1, 0.45),
    "raft.margin": (4, 0, 10),
    "support.gap": (0.2, 0.08, 0.45),
    "support.density": (30, 30, 80),
    "top.layers": (5, 5, 10),
    "print.acceleration": (800, 200, 800),
    "layer.minimum_time": (15, 15, 60),
}
"""Value of the profile, lowest and highest that recipe, spool and machine allow; canonical units."""


class Step(NamedTuple):
    """What an advisor wants for the next print. done: one of DOINGS, or ""."""

    settings: Mapping[str, float] = {}
    done: str = ""


class Brief(NamedTuple):
    """What a maker knows. bounds: setting -> lowest, highest."""

    settings: Mapping[str, float]
    bounds: Mapping[str, tuple[float, float]]
    facts: Mapping[str, str]


Look = Callable[[str], bool]
Advisor = Callable[[Mapping[str, str], Settings, Look], Step | None]


class Workshop:
    """Opened by a seed; the same seed has the same secrets for every advisor."""

    def __init__(self, hidden: Hidden, brief: Brief, eyes: random.Random) -> None:
        self.hidden = hidden
        self.brief = brief
        self.eyes = eyes

    @classmethod
    def opened(cls, seed: int) -> Workshop:
        """One to three causes are far off, and the first print shows a trouble."""
        dice = random.Random(f"workshop {seed}")
        start = {name: values[0] for name, values in SETTINGS.items()}
        bounds = {name: (low, high) for name, (_, low, high) in SETTINGS.items()}
        while True:
            hidden = usual(start, dice)
            for cause in dice.sample(Hidden._fields, dice.choice((1, 1, 2, 2, 3))):
                hidden = deviate(hidden, cause, dice)
            if max(troubles(start, hidden).values()) >= POOR:
                facts = {"machine.drive": dice.choice(("direct", "direct", "remote")), "spool.material": "flexible PLA"}
                return cls(hidden, Brief(start, bounds, facts), random.Random(f"eyes {seed}"))

    def true(self, settings: Settings, done: tuple[str, ...]) -> dict[str, float]:
        return troubles(settings, after(self.hidden, done))

    def is_good(self, settings: Settings, done: tuple[str, ...]) -> bool:
        """Whether a careful eye without noise would call every trouble good."""
        return max(self.true(settings, done).values()) <= GOOD

    def print(self, settings: Settings, done: tuple[str, ...]) -> dict[str, str]:
        """What the maker says of each trouble."""
        return {name: self._grade(strength) for name, strength in self.true(settings, done).items()}

    def _grade(self, strength: float) -> str:
        if self.eyes.random() < SLIPS:
            return self.eyes.choice(("good", "fair", "poor"))
        felt = strength + self.eyes.gauss(0, SPREAD)
        return "good" if felt <= GOOD else "poor" if felt >= POOR else "fair"

    def look(self, sign: str, settings: Settings, done: tuple[str, ...]) -> bool:
        """One look that a maker can take; wrong once in twelve. An unknown sign is seen at random once in four."""
        h = after(self.hidden, done)
        signs = {
            "hiss": h.damp > 0.4,
            "drops": settings["nozzle.temperature"] - h.best_heat > 4,
            "gear marks": h.idler > 0.4,
            "gears turn and nothing comes": h.idler < -0.4 or settings["outer_wall.speed"] > h.slip_speed,
            "strand in a loop at the gears": h.gap > 0.4,
            "finger marks on the bed": h.hold < 0.8,
        }
        truth = signs.get(sign, self.eyes.random() < 0.25)
        return truth != (self.eyes.random() < 1 / 12)
