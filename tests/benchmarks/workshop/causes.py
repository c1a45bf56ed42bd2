"""What is hidden in one workshop, and how strong each trouble truly is. Invented; shapes by common practice, no
source.
"""

from __future__ import annotations

import random
from collections.abc import Mapping
from typing import NamedTuple

Settings = Mapping[str, float]
"""Vocabulary name -> value in canonical units; switches are 0 or 1."""

TROUBLES = (
    "stringing",
    "gaps in walls",
    "slipped filament",
    "buckled at the drive",
    "steam or bubbles",
    "corners lift",
    "stuck too hard",
    "bottom bulges",
    "supports torn out",
    "supports collapsed",
    "underside sags",
    "top pillows",
    "tall parts wobble",
    "blobs at starts",
    "layers part",
)
DOINGS = ("dry the spool", "set the idler", "close the gap at the gears", "clean the bed")
"""What a maker can do that is no setting."""


class Hidden(NamedTuple):
    """One workshop's secrets. Most are near what the profile assumes; one to three are far off.

    damp: 0 dry to 1 wet. best_heat: °C at which this spool flows and bonds. pull: mm of retraction that it wants.
    slip_speed: mm/s above which the strand slips. idler: 0 right, +1 too tight, -1 too loose. gap: 0 closed to 1 wide.
    hold: how well the bed holds, 1 usual. bed_best: °C. raft_gap, support_gap: mm that part cleanly.
    support_need: % below which supports give way. air: % of the fan that it wants. sway: 1 usual, 2 for a tall thin
    part.
    cover: closing layers that bridge the filling. flow: % that fills.
    """

    damp: float
    best_heat: float
    pull: float
    slip_speed: float
    idler: float
    gap: float
    hold: float
    bed_best: float
    raft_gap: float
    support_gap: float
    support_need: float
    air: float
    sway: float
    cover: float
    flow: float


def usual(settings: Settings, dice: random.Random) -> Hidden:
    """A world in which the profile prints well."""
    near = dice.gauss
    return Hidden(
        damp=dice.uniform(0, 0.15),
        best_heat=settings["nozzle.temperature"] + near(0, 1),
        pull=settings["retraction.distance"] + near(0, 0.1),
        slip_speed=settings["outer_wall.speed"] * dice.uniform(1.2, 1.5),
        idler=near(0, 0.1),
        gap=dice.uniform(0, 0.1),
        hold=near(1.1, 0.05),
        bed_best=settings["bed.temperature"] + near(0, 2),
        raft_gap=settings["raft.gap"] + near(0, 0.01),
        support_gap=settings["support.gap"] + near(0, 0.01),
        support_need=settings["support.density"] - dice.uniform(5, 12),
        air=settings["fan.power"] + near(0, 5),
        sway=near(0.8, 0.1),
        cover=settings["top.layers"] - dice.uniform(0.5, 2),
        flow=settings["bead.flow"] + near(0, 0.7),
    )


def deviate(hidden: Hidden, cause: str, dice: random.Random) -> Hidden:
    """One of the secrets moved far from what the profile assumes."""
    side = dice.choice((-1, 1))
    moved = {
        "damp": dice.uniform(0.6, 1),
        "best_heat": hidden.best_heat + side * dice.uniform(6, 11),
        "pull": max(0.0, hidden.pull + side * dice.uniform(0.6, 1.2)),
        "slip_speed": hidden.slip_speed * dice.uniform(0.5, 0.72),
        "idler": side * dice.uniform(0.7, 1),
        "gap": dice.uniform(0.6, 1),
        "hold": dice.uniform(0.45, 0.7),
        "bed_best": hidden.bed_best + side * dice.uniform(9, 16),
        "raft_gap": hidden.raft_gap + dice.uniform(0.06, 0.12),
        "support_gap": hidden.support_gap + side * dice.uniform(0.06, 0.1),
        "support_need": hidden.support_need + dice.uniform(14, 22),
        "air": min(100.0, max(0.0, hidden.air + side * dice.uniform(30, 50))),
        "sway": dice.uniform(1.6, 2.2),
        "cover": hidden.cover + dice.uniform(2, 3.2),
        "flow": hidden.flow + dice.choice((-1, 1)) * dice.uniform(3.5, 6),
    }
    return hidden._replace(**{cause: moved[cause]})


def after(hidden: Hidden, done: tuple[str, ...]) -> Hidden:
    """The world once something was done to spool or machine."""
    changes: dict[str, float] = {}
    if "dry the spool" in done:
        changes["damp"] = min(hidden.damp, 0.1)
    if "set the idler" in done:
        changes["idler"] = 0.15 * hidden.idler
    if "close the gap at the gears" in done:
        changes["gap"] = min(hidden.gap, 0.1)
    if "clean the bed" in done:
        changes["hold"] = max(hidden.hold, 1.0)
    return hidden._replace(**changes)


def over(value: float, free: float, full: float) -> float:
    """0 up to ``free``, 1 at ``full``, straight in between and beyond."""
    return max(0.0, (value - free) / (full - free))


def troubles(settings: Settings, hidden: Hidden) -> dict[str, float]:
    """How strong each trouble is; 0.35 is what a careful eye still calls good, 0.8 is poor."""
    s, h = settings, hidden
    hot = s["nozzle.temperature"] - h.best_heat
    pull = s["retraction.distance"] - h.pull
    push = s["outer_wall.speed"] / h.slip_speed
    bed = s["bed.temperature"] - h.bed_best
    air = s["fan.power"] - h.air
    grip = h.hold + 0.03 * bed - 0.02 * over(s["first_layer.speed"], 20, 21) + 0.02 * s["raft.margin"]
    thin = h.flow - s["bead.flow"]
    tight, loose = max(0.0, h.idler), max(0.0, -h.idler)
    starved = over(push, 1.0, 1.35) + over(-hot, 3, 8) + 0.9 * loose
    return {
        "stringing": 0.9 * over(h.damp, 0.15, 0.6)
        + over(hot, 2.5, 7.5)
        + over(-pull, 0.25, 0.8)
        + 0.4 * over(-air, 20, 45)
        + 0.3 * over(100 - s["travel.speed"], 20, 60),
        "gaps in walls": 0.8 * starved + over(thin, 1.5, 4) + 0.3 * h.damp,
        "slipped filament": starved + 0.9 * tight + over(pull, 0.5, 1.1),
        "buckled at the drive": over(h.gap, 0.25, 0.6) * (0.4 + 0.6 * min(1.5, push)) + 0.6 * over(push, 1.2, 1.5),
        "steam or bubbles": over(h.damp, 0.3, 0.75),
        "corners lift": over(1.0 - grip, 0.1, 0.4)
        + 0.3 * over(air, 25, 50)
        + 0.5 * over(s["raft.gap"] - h.raft_gap, 0.04, 0.1),
        "stuck too hard": over(h.raft_gap - s["raft.gap"], 0.03, 0.08) + 0.5 * over(bed, 7, 14),
        "bottom bulges": over(bed, 5, 12) + 0.3 * over(hot, 4, 10),
        "supports torn out": over(h.support_gap - s["support.gap"], 0.03, 0.08) + 0.3 * over(hot, 3, 8),
        "supports collapsed": over(h.support_need - s["support.density"], 0, 12) + 0.3 * over(h.sway, 1.4, 2),
        "underside sags": over(s["support.gap"] - h.support_gap, 0.03, 0.08)
        + 0.6 * over(-air, 18, 40)
        + 0.4 * over(h.support_need - s["support.density"], 4, 16)
        + 0.3 * over(hot, 4, 9),
        "top pillows": over(h.cover - s["top.layers"], 0.2, 2) + 0.3 * over(-air, 25, 45),
        "tall parts wobble": over(h.sway * s["print.acceleration"] / 800, 1.05, 1.7)
        * over(30 - s["layer.minimum_time"], 5, 20)
        + 0.2 * over(push, 1.1, 1.4),
        "blobs at starts": over(-thin, 1.5, 4.5) + 0.5 * over(hot, 3, 8) + 0.4 * over(-pull, 0.4, 1) + 0.3 * h.damp,
        "layers part": over(-hot, 4, 9) + over(air, 22, 45) + 0.4 * over(push, 1.15, 1.5),
    }
