"""What the maker starts from: a soft profile as one of many people would have made it, and how far each setting may go.

Units are canonical: mm, mm/s, mm/s², °C, %, s. The ranges are common practice, no source.
"""

from __future__ import annotations

import random
from collections.abc import Mapping

Settings = Mapping[str, float]
Bounds = Mapping[str, tuple[float, float]]

STARTS: Mapping[str, tuple[float, float, float]] = {
    "layer.height": (0.16, 0.24, 0.04),
    "layer.minimum_time": (12, 20, 1),
    "first_layer.speed": (12, 20, 1),
    "bead.flow": (98, 106, 1),
    "outer_wall.speed": (18, 28, 1),
    "inner_wall.speed": (22, 34, 1),
    "infill.speed": (26, 40, 1),
    "infill.density": (8, 16, 1),
    "top.layers": (4, 6, 1),
    "bridge.speed": (12, 20, 1),
    "support.density": (12, 18, 1),
    "support.gap": (0.18, 0.26, 0.01),
    "support.speed": (20, 32, 1),
    "raft.gap": (0.16, 0.24, 0.01),
    "raft.margin": (4, 7, 0.5),
    "nozzle.temperature": (210, 225, 1),
    "bed.temperature": (35, 50, 1),
    "fan.power": (35, 65, 5),
    "fan.off_layers": (1, 3, 1),
    "retraction.speed": (20, 30, 1),
    "retraction.lift": (0.1, 0.3, 0.1),
    "travel.speed": (100, 160, 10),
    "travel.acceleration": (800, 1500, 100),
    "print.acceleration": (500, 1000, 50),
}
"""Setting: lowest and highest first value, and the round step that people choose it in."""

REACH: Bounds = {
    "layer.height": (-0.06, 0.06),
    "layer.minimum_time": (-8, 30),
    "first_layer.speed": (-7, 10),
    "first_layer.nozzle_temperature": (-15, 17),
    "first_layer.bed_temperature": (-22, 25),
    "bead.flow": (-12, 14),
    "outer_wall.speed": (-12, 15),
    "inner_wall.speed": (-14, 20),
    "infill.speed": (-16, 30),
    "infill.density": (-5, 20),
    "top.layers": (-2, 5),
    "bridge.speed": (-8, 15),
    "support.density": (-8, 18),
    "support.gap": (-0.12, 0.16),
    "support.speed": (-12, 15),
    "raft.gap": (-0.12, 0.16),
    "raft.margin": (-3, 8),
    "nozzle.temperature": (-15, 17),
    "bed.temperature": (-22, 25),
    "fan.power": (-35, 35),
    "fan.off_layers": (-1, 4),
    "retraction.speed": (-12, 25),
    "retraction.lift": (-0.1, 0.6),
    "travel.speed": (-40, 90),
    "travel.acceleration": (-500, 1500),
    "print.acceleration": (-350, 1500),
}
"""How far below and above its first value recipe, spool and machine let a setting go."""

DRIVES: Mapping[str, tuple[float, float]] = {"direct": (0.8, 1.6), "remote": (2.4, 4.0)}
"""Retraction that people begin with, in mm, by where the filament is driven."""


def a_profile(dice: random.Random, drive: str) -> dict[str, float]:
    settings = {name: _round_value(dice, *start) for name, start in STARTS.items()}
    settings["retraction.distance"] = _round_value(dice, *DRIVES[drive], 0.1)
    settings["first_layer.nozzle_temperature"] = settings["nozzle.temperature"] + dice.choice((0, 0, 3, 5))
    settings["first_layer.bed_temperature"] = settings["bed.temperature"] + dice.choice((0, 0, 5))
    return settings


def bounds_of(settings: Settings, dice: random.Random) -> Bounds:
    """Some recipes are tighter than others: each reach is drawn between 80 % and 110 % of the table's."""
    bounds = {}
    for name, value in settings.items():
        below, above = REACH.get(name, (-0.8 * value, 1.0 * value))
        wide = dice.uniform(0.8, 1.1)
        bounds[name] = (round(value + below * wide, 3), round(value + above * wide, 3))
    bounds["fan.power"] = (max(0.0, bounds["fan.power"][0]), min(100.0, bounds["fan.power"][1]))
    bounds["fan.off_layers"] = (1.0, 6.0)
    bounds["top.layers"] = (max(2.0, settings["top.layers"] - 2), settings["top.layers"] + 4)
    bounds["retraction.lift"] = (0.0, bounds["retraction.lift"][1])
    return bounds


def _round_value(dice: random.Random, low: float, high: float, step: float) -> float:
    return round(low + step * dice.randint(0, round((high - low) / step)), 3)


def bed_heat(settings: Settings) -> float:
    """The first layer takes hold at its own heat; what holds it while the part grows and shrinks is the later one."""
    return 0.4 * settings["first_layer.bed_temperature"] + 0.6 * settings["bed.temperature"]


PULLED: Mapping[str, float] = {
    "outer_wall.speed": 0.35,
    "inner_wall.speed": 0.3,
    "infill.speed": 0.2,
    "support.speed": 0.15,
}


def feed(settings: Settings) -> float:
    """mm³/s that the gears feel: the root of the mean square over what is laid, so that the fast lines count most."""
    square = sum(share * settings[name] ** 2 for name, share in PULLED.items())
    return 0.45 * settings["layer.height"] * square**0.5 * settings["bead.flow"] / 100
