"""How strong each trouble truly is: 0 is none, 1 is bad, GOOD is where a maker begins to mind it.

Heat, pressure and the amount that is laid are worked out first; the troubles answer to them, so that one cause shows in
several troubles, and a setting that helps one may spoil another: slower feeds better and takes longer; cooler strings
less and parts layers; more fan holds undersides and lifts corners. Common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Collection
from typing import NamedTuple

from tests.benchmarks.second_workshop.causes import Hidden
from tests.benchmarks.second_workshop.profile import Settings, bed_heat, feed

GOOD, POOR = 0.4, 0.75


class State(NamedTuple):
    """warm: °C above the spool's best. load: feed relative to what melts and is pushed. laid: amount relative to a full
    bead. short: retraction that lacks, in steps of this drive; below zero it is too much.
    """

    damp: float
    idler: float
    gap: float
    dirt: float
    warm: float
    first_warm: float
    load: float
    slip: float
    laid: float
    short: float


def above(value: float) -> float:
    return max(0.0, value)


def state_of(hidden: Hidden, settings: Settings, done: Collection[str]) -> State:
    damp = hidden.damp * (0.1 if "dry the spool" in done else 1)
    idler = hidden.idler * (0.1 if "set the idler" in done else 1)
    gap = hidden.gap * (0.1 if "close the gap at the gears" in done else 1)
    dirt = hidden.dirt * (0.1 if "clean the bed" in done else 1)
    warm = settings["nozzle.temperature"] - hidden.best["nozzle.temperature"]
    first_warm = settings["first_layer.nozzle_temperature"] - hidden.best["first_layer.nozzle_temperature"]
    short = (hidden.best["retraction.distance"] - settings["retraction.distance"]) / hidden.reach
    load = feed(settings) / hidden.melt_flow * math.exp(-warm / 35)
    slip = 1.5 * above(load - 0.72 + 0.4 * idler) + 0.45 * idler + 0.7 * above(-short - 0.3) * (1 + idler)
    laid = settings["bead.flow"] / 100 * hidden.bead_truth * (1 - 0.025 * damp) * (1 - 0.04 * above(slip - 0.3))
    return State(damp, idler, gap, dirt, warm, first_warm, load, slip, laid, short)


def hours_of(settings: Settings) -> float:
    """Time of the usual part in any unit: shares of length by speed, layers by height, small layers held up."""
    share = {"outer_wall.speed": 0.3, "inner_wall.speed": 0.25, "infill.speed": 0.12, "support.speed": 0.12}
    laying = sum(part / settings[name] for name, part in share.items())
    filled = 0.12 * settings["infill.density"] / 12 / settings["infill.speed"]
    starts = 0.8 / settings["print.acceleration"]
    travels = 0.6 / settings["travel.speed"]
    return (laying + filled + starts + travels + settings["layer.minimum_time"] * 0.0003) / settings["layer.height"]


def strengths(hidden: Hidden, settings: Settings, done: Collection[str], hours: float) -> dict[str, float]:
    """hours: those of the first print. Trouble: strength."""
    state = state_of(hidden, settings, done)
    longer = hours_of(settings) / hours / hidden.patience
    return {
        **_feeding(hidden, settings, state),
        **_walls(hidden, settings, state),
        **_footing(hidden, settings, state),
        **_overhangs(hidden, settings, state),
        "print takes too long": 0.1 + 2.2 * above(longer - 0.9),
    }


def _feeding(hidden: Hidden, settings: Settings, state: State) -> dict[str, float]:
    yank = 0.012 * above(settings["retraction.speed"] - hidden.best["retraction.speed"] - 4)
    squeezed = 1.3 * hidden.softness * above(state.load * (1 + 0.8 * state.gap) - 0.8)
    return {
        "slipped filament": 0.05 + state.slip + yank,
        "buckled at the drive": 0.05 + squeezed + 0.45 * state.gap + yank * (1 + state.gap),
        "steam or bubbles": state.damp * (1 + 0.015 * max(-15.0, state.warm)),
    }


def _walls(hidden: Hidden, settings: Settings, state: State) -> dict[str, float]:
    best, thin, thick = hidden.best, 9 * above(0.975 - state.laid), 7 * above(state.laid - 1.03)
    lingers = above(1 - settings["travel.speed"] / best["travel.speed"])
    dry_start = 0.3 * above(-state.short - 0.4)
    return {
        "stringing": 0.06
        + 0.6 * state.damp * (1 + 0.02 * above(state.warm))
        + 0.045 * above(state.warm - 1)
        + 0.6 * above(state.short - 0.1)
        + 0.5 * above(lingers - 0.05)
        + 0.12 * settings["retraction.lift"],
        "gaps in walls": 0.05
        + thin
        + 0.4 * above(state.slip - 0.15)
        + 0.2 * state.damp
        + 0.03 * above(-state.warm - 4)
        + dry_start,
        "blobs at starts": 0.08
        + thick
        + 0.02 * above(state.warm - 3)
        + 0.3 * above(state.short - 0.2)
        + 0.2 * state.damp
        + 2 * dry_start,
        "layers part": 0.06
        + 0.055 * above(-state.warm - 1)
        + 0.025 * above(settings["fan.power"] - best["fan.power"] - 8)
        + 0.2 * state.damp
        + 0.3 * thin
        + 0.012 * above(settings["layer.minimum_time"] - best["layer.minimum_time"] - 10)
        + 3 * above(settings["layer.height"] - 0.25),
        "tall parts wobble": 0.08
        + 0.055 * above(best["layer.minimum_time"] - settings["layer.minimum_time"])
        + 0.002 * above(settings["print.acceleration"] - best["print.acceleration"] - 40)
        + 0.03 * above(settings["outer_wall.speed"] - best["outer_wall.speed"] - 4)
        + 0.012 * above(best["fan.power"] - settings["fan.power"] - 8)
        + 0.01 * above(state.warm - 2),
    }


def _footing(hidden: Hidden, settings: Settings, state: State) -> dict[str, float]:
    best = hidden.best
    bed = bed_heat(settings) - best["bed.temperature"]
    room = settings["raft.gap"] - best["raft.gap"]
    thick = above(state.laid - 1.03)
    return {
        "corners lift": 0.08
        + 0.055 * above(-bed - 1)
        + 0.75 * state.dirt
        + 0.025 * above(settings["first_layer.speed"] - best["first_layer.speed"] - 2)
        + 0.02 * above(-state.first_warm - 3)
        + 7 * above(room - 0.03)
        + 0.06 * above(best["raft.margin"] - settings["raft.margin"] - 0.5)
        + 0.012 * above(settings["fan.power"] - best["fan.power"] - 10),
        "stuck too hard": 0.06
        + 0.05 * above(bed - 2)
        + 7 * above(-room - 0.02)
        + 0.02 * above(state.first_warm - 4)
        + 2 * thick,
        "bottom bulges": 0.08
        + 0.055 * above(bed - 3)
        + 0.025 * above(state.first_warm - 4)
        + 4 * thick
        + 0.05 * above(settings["fan.off_layers"] - 3),
    }


def _overhangs(hidden: Hidden, settings: Settings, state: State) -> dict[str, float]:
    best = hidden.best
    room = settings["support.gap"] - best["support.gap"]
    lattice = settings["support.density"] - best["support.density"]
    calm = best["fan.power"] - settings["fan.power"]
    return {
        "supports torn out": 0.08
        + 7 * above(-room - 0.015)
        + 0.025 * above(state.warm - 2)
        + 0.02 * above(lattice - 9)
        + 2 * above(state.laid - 1.03),
        "supports collapsed": 0.06
        + 0.055 * above(-lattice)
        + 0.02 * above(settings["support.speed"] - best["support.speed"] - 5)
        + 0.25 * above(state.slip - 0.3)
        + 3 * above(0.96 - state.laid),
        "underside sags": 0.08
        + 6 * above(room - 0.02)
        + 0.018 * above(calm - 4)
        + 0.02 * above(state.warm - 2)
        + 0.02 * above(-lattice - 2)
        + 0.025 * above(settings["bridge.speed"] - best["bridge.speed"] - 3)
        + 0.1 * state.damp,
        "top pillows": 0.08
        + 0.28 * above(best["top.layers"] - settings["top.layers"] - 0.2)
        + 0.035 * above(best["infill.density"] - settings["infill.density"] - 1)
        + 0.012 * above(calm - 6)
        + 2.5 * above(0.975 - state.laid),
    }
