"""What is hidden in one workshop. Most numbers lie near what the profile suits; one to three causes are off.

A cause that is off either spoils a thing (a damp spool, a loose idler, a gap, a greasy bed) or shifts what this spool
or this machine wants away from what the profile gives. Common practice, no source.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Mapping
from typing import NamedTuple

from tests.benchmarks.second_workshop.profile import Settings, bed_heat, feed


class Hidden(NamedTuple):
    """What nobody in the workshop knows. damp, idler, gap, dirt: from 0 (none) to 1."""

    damp: float
    idler: float
    gap: float
    dirt: float
    melt_flow: float
    """mm³/s that this nozzle melts and these gears push at the spool's best temperature."""
    bead_truth: float
    """Material that really comes, relative to what was computed."""
    softness: float
    """How readily the strand gives way sideways: 0.7 (95 A) to 1.3 (85 A)."""
    reach: float
    """How many mm of retraction count as one step: a tube takes up more."""
    patience: float
    """Hours that somebody can watch, relative to those of the first print."""
    best: Mapping[str, float]
    """Setting: the value that this spool, machine and part want."""


SPREAD: Mapping[str, float] = {
    "nozzle.temperature": 2,
    "first_layer.nozzle_temperature": 2,
    "first_layer.speed": 1.5,
    "layer.minimum_time": 2,
    "outer_wall.speed": 2,
    "bridge.speed": 2,
    "support.density": 1.5,
    "support.gap": 0.015,
    "support.speed": 3,
    "raft.gap": 0.015,
    "raft.margin": 0.7,
    "top.layers": 0.4,
    "infill.density": 1.5,
    "fan.power": 6,
    "retraction.distance": 0.15,
    "retraction.speed": 3,
    "travel.speed": 12,
    "print.acceleration": 80,
}
"""How far what is wanted lies from what the profile gives where nothing is off: one standard deviation."""

DOINGS = ("dry the spool", "set the idler", "close the gap at the gears", "clean the bed")


def a_workshop(dice: random.Random, settings: Settings, drive: str) -> Hidden:
    hidden = _nothing_off(dice, settings, drive)
    count = dice.choices((1, 2, 3), (3, 4, 3))[0]
    names, weights = list(OFF), [weight for weight, _ in OFF.values()]
    off: list[str] = []
    while len(off) < count:
        name = dice.choices(names, weights)[0]
        if name.split()[0] not in {other.split()[0] for other in off}:
            off.append(name)
            hidden = OFF[name][1](dice, hidden)
    return hidden


def _nothing_off(dice: random.Random, settings: Settings, drive: str) -> Hidden:
    best = {name: settings[name] + dice.gauss(0, spread) for name, spread in SPREAD.items()}
    best["bed.temperature"] = bed_heat(settings) + dice.gauss(0, 2.5)
    return Hidden(
        damp=dice.uniform(0, 0.15),
        idler=dice.uniform(0, 0.15),
        gap=dice.uniform(0, 0.2 if drive == "direct" else 0.3),
        dirt=dice.uniform(0, 0.15),
        melt_flow=feed(settings) / dice.uniform(0.42, 0.6),
        bead_truth=100 / settings["bead.flow"] * dice.gauss(1.005, 0.01),
        softness=dice.uniform(0.7, 1.3),
        reach=1.0 if drive == "direct" else 2.0,
        patience=dice.uniform(1.2, 1.6),
        best=best,
    )


Draw = Callable[[random.Random, Hidden], Hidden]


def _thing(field: str, low: float, high: float) -> Draw:
    """A thing that is spoilt: one number of the hidden ones is drawn anew."""
    return lambda dice, hidden: hidden._replace(**{field: dice.uniform(low, high)})


def _scaled(field: str, low: float, high: float) -> Draw:
    return lambda dice, hidden: hidden._replace(**{field: getattr(hidden, field) * dice.uniform(low, high)})


def _wanted(low: float, high: float, *names: str) -> Draw:
    """What is wanted lies elsewhere; several settings that want the same shift by the same amount."""

    def shifted(dice: random.Random, hidden: Hidden) -> Hidden:
        by = dice.uniform(low, high)
        return hidden._replace(best={**hidden.best, **{name: hidden.best[name] + by for name in names}})

    return shifted


def _retraction(low: float, high: float) -> Draw:
    def shifted(dice: random.Random, hidden: Hidden) -> Hidden:
        wanted = hidden.best["retraction.distance"] + dice.uniform(low, high) * hidden.reach
        return hidden._replace(best={**hidden.best, "retraction.distance": wanted})

    return shifted


NOZZLE = ("nozzle.temperature", "first_layer.nozzle_temperature")
OFF: Mapping[str, tuple[float, Draw]] = {
    "damp": (4, _thing("damp", 0.5, 1)),
    "idler": (2, _thing("idler", 0.5, 1)),
    "gap": (1.5, _thing("gap", 0.6, 1)),
    "dirt": (1.5, _thing("dirt", 0.5, 1)),
    "melt cooler": (2, _wanted(-14, -8, *NOZZLE)),
    "melt hotter": (2, _wanted(8, 14, *NOZZLE)),
    "flow slow": (2, _scaled("melt_flow", 0.45, 0.6)),
    "bead thick": (1.5, _scaled("bead_truth", 1.06, 1.1)),
    "bead thin": (1.5, _scaled("bead_truth", 0.9, 0.94)),
    "bed hotter": (1.5, _wanted(9, 17, "bed.temperature")),
    "bed cooler": (1.5, _wanted(-17, -9, "bed.temperature")),
    "retraction more": (2, _retraction(0.6, 1.1)),
    "retraction less": (1, _retraction(-1.1, -0.6)),
    "support wider": (1.5, _wanted(0.05, 0.1, "support.gap")),
    "support closer": (1, _wanted(-0.1, -0.06, "support.gap")),
    "lattice weak": (1, _wanted(7, 12, "support.density")),
    "raft wider": (1, _wanted(0.05, 0.1, "raft.gap")),
    "raft closer": (1, _wanted(-0.1, -0.06, "raft.gap")),
    "top thin": (1, _wanted(1.4, 2.4, "top.layers")),
    "air more": (1, _wanted(20, 30, "fan.power")),
    "air less": (1, _wanted(-30, -20, "fan.power")),
    "sway hot": (1, _wanted(8, 16, "layer.minimum_time")),
    "sway shaken": (1, _wanted(-350, -200, "print.acceleration")),
    "hours": (1, _scaled("patience", 0.58, 0.68)),
}
"""Cause that is off: how often, relative to the others, and how it is drawn. One of those with the same first word."""
