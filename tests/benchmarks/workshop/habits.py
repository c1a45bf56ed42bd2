"""Two habits to measure advice against: one factor at a time by hand, and a random order."""

from __future__ import annotations

import random
from collections.abc import Mapping

from tests.benchmarks.workshop.causes import DOINGS, Settings
from tests.benchmarks.workshop.workshop import Advisor, Brief, Look, Step

WORTH = {"good": 0, "fair": 1, "poor": 2}
BLAMED: Mapping[str, tuple[tuple[str, float], ...]] = {
    "stringing": (("retraction.distance", 0.5), ("nozzle.temperature", -5), ("travel.speed", 30), ("dry the spool", 0)),
    "gaps in walls": (("bead.flow", 3), ("nozzle.temperature", 5), ("outer_wall.speed", -10), ("set the idler", 0)),
    "slipped filament": (
        ("outer_wall.speed", -10),
        ("nozzle.temperature", 5),
        ("set the idler", 0),
        ("retraction.distance", -0.5),
    ),
    "buckled at the drive": (
        ("outer_wall.speed", -10),
        ("retraction.distance", -0.5),
        ("close the gap at the gears", 0),
    ),
    "steam or bubbles": (("nozzle.temperature", -5), ("dry the spool", 0)),
    "corners lift": (("bed.temperature", 5), ("first_layer.speed", -5), ("raft.margin", 2), ("clean the bed", 0)),
    "stuck too hard": (("bed.temperature", -5), ("raft.gap", 0.05)),
    "bottom bulges": (("bed.temperature", -5), ("nozzle.temperature", -5)),
    "supports torn out": (("support.gap", 0.05), ("nozzle.temperature", -5)),
    "supports collapsed": (("support.density", 10),),
    "underside sags": (("support.gap", -0.05), ("fan.power", 20), ("support.density", 10), ("nozzle.temperature", -5)),
    "top pillows": (("top.layers", 1), ("fan.power", 20)),
    "tall parts wobble": (("layer.minimum_time", 10), ("print.acceleration", -200), ("outer_wall.speed", -10)),
    "blobs at starts": (("retraction.distance", 0.5), ("bead.flow", -3), ("nozzle.temperature", -5)),
    "layers part": (("nozzle.temperature", 5), ("fan.power", -20), ("outer_wall.speed", -10)),
    "print takes too long": (("outer_wall.speed", 10), ("infill.speed", 15), ("layer.height", 0.04)),
}
"""What a maker who read around would try for each trouble, in order. By hand, no source."""


def worth(seen: Mapping[str, str]) -> int:
    return sum(WORTH[grade] for grade in seen.values())


def moved(settings: Settings, brief: Brief, name: str, step: float) -> Step | None:
    """A step inside the bounds; None where nothing is left to move, or where this world lacks the setting."""
    if name in DOINGS:
        return Step(done=name)
    if name not in brief.bounds:
        return None
    low, high = brief.bounds[name]
    value = min(high, max(low, settings[name] + step))
    return Step({name: value}) if value != settings[name] else None


def by_hand(brief: Brief) -> Advisor:
    """The worst trouble's list from its top; a step that helped is taken again, one that did not is taken back."""
    tried: dict[str, int] = {}
    last: list[tuple[int, str, float, float]] = []

    def advise(seen: Mapping[str, str], settings: Settings, look: Look) -> Step | None:
        del look
        back: dict[str, float] = {}
        if last:
            before, name, step, value = last.pop()
            if worth(seen) < before and name not in DOINGS:
                again = moved(settings, brief, name, step)
                if again:
                    last.append((worth(seen), name, step, settings[name]))
                    return again
            elif worth(seen) > before and name not in DOINGS:
                back[name] = value
        bad = sorted((name for name in seen if seen[name] != "good"), key=lambda name: -WORTH[seen[name]])
        for trouble in bad:
            for name, step in BLAMED[trouble][tried.get(trouble, 0) :]:
                tried[trouble] = tried.get(trouble, 0) + 1
                found = moved({**settings, **back}, brief, name, step)
                if found and name not in back:
                    last.append((worth(seen), name, step, settings.get(name, 0)))
                    return Step({**back, **found.settings}, found.done)
        return Step(back) if back else None

    return advise


def at_random(brief: Brief) -> Advisor:
    """Any of the blamed things of the troubles that are seen, in an order of chance; a step that made it worse is taken
    back.
    """
    dice = random.Random(repr(sorted(brief.facts.items())))
    last: list[tuple[int, str, float]] = []

    def advise(seen: Mapping[str, str], settings: Settings, look: Look) -> Step | None:
        del look
        back: dict[str, float] = {}
        if last:
            before, name, value = last.pop()
            if worth(seen) > before and name not in DOINGS:
                back[name] = value
        choices = [item for trouble in seen if seen[trouble] != "good" for item in BLAMED[trouble]]
        dice.shuffle(choices)
        for name, step in choices:
            found = moved({**settings, **back}, brief, name, step * dice.choice((-1, 1, 1)))
            if found and name not in back:
                last.append((worth(seen), name, settings.get(name, 0)))
                return Step({**back, **found.settings}, found.done)
        return Step(back) if back else None

    return advise
