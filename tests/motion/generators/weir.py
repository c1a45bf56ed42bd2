"""An invented workshop that writes motion files: a dome, a spiral vase, slotted boxes, two towers, a mushroom.

Everything is invented. Lengths are mm, speeds mm/s, unless a name says otherwise. What is counted as truth is taken
from the numbers as they were rounded into the file, not from the plan. A bead is a rectangle with round ends; A = (w -
h) h + pi h^2 / 4 (pure geometry).
"""

from __future__ import annotations

from typing import NamedTuple

from tests.motion.generators.weir_pen import Quill, word
from tests.motion.generators.weir_shapes import Hand, Job, Layer, Want, plan, stroke_length

BASE: Want = {
    **{
        "layer.height": 0.2,
        "first_layer.height": 0.3,
        "first_layer.speed": 18.0,
        "bead.width": 0.45,
        "bead.flow": 100.0,
    },
    **{
        "first_layer.nozzle_temperature": 215,
        "nozzle.temperature": 208,
        "first_layer.bed_temperature": 60,
        "bed.temperature": 55,
    },
    **{
        "wall.count": 2,
        "outer_wall.speed": 30.0,
        "inner_wall.speed": 42.0,
        "infill.speed": 60.0,
        "infill.density": 20.0,
    },
    **{
        "top.layers": 3,
        "bottom.layers": 3,
        "top.speed": 35.0,
        "bottom.speed": 38.0,
        "skirt.loops": 2,
        "brim.on": False,
    },
    **{"support.on": False, "support.speed": 45.0, "support.density": 25.0, "raft.on": False, "raft.layers": 3},
    **{
        "raft.speed": 28.0,
        "raft.gap": 0.15,
        "raft.margin": 3.0,
        "fan.power": 100.0,
        "fan.off_layers": 2,
        "travel.speed": 140.0,
    },
    **{"retraction.on": True, "retraction.distance": 1.2, "retraction.speed": 32.0, "retraction.minimum_travel": 2.5},
    **{"retraction.lift": 0.0, "filament.diameter": 1.75, "layer.minimum_time": 0.0},
}
NEVER_EXACT = {
    *("bead.width", "bead.flow", "infill.density", "support.density", "support.gap", "raft.gap", "raft.margin"),
    *("retraction.minimum_travel", "layer.minimum_time", "filament.diameter"),
}


class Truth(NamedTuple):
    settings: Want
    filament_mm: float
    pulls: int
    layers: int
    fastest: dict[str, float]
    words: dict[str, str]
    flow_peak: float
    open: tuple[str, ...]  # settings of which the file alone cannot give the number


class Made(NamedTuple):
    text: str
    truth: Truth


def open_file(quill: Quill) -> None:
    want, hand, say = quill.want, quill.hand, quill.say
    if hand.inch:
        quill.lines.append("%")
    quill.remark("an invented file for tests; no part of it was ever printed")
    say("G17", "G20" if hand.inch else "G21", "G90", "G94")
    say("M83" if hand.relative else "M82")
    if "print.acceleration" in want:
        say("M204", word("P", want["print.acceleration"], 0), word("T", want["travel.acceleration"], 0))
    if hand.machine_pulls:
        lift = word("Z", want["retraction.lift"], 3)
        say("M207", word("S", want["retraction.distance"], 3), word("F", want["retraction.speed"] * 60, 1), lift)
        say("M208", "S0", word("F", want["retraction.speed"] * 60, 1))
    bed, nozzle = want["first_layer.bed_temperature"], want["first_layer.nozzle_temperature"]
    for order, heat in (("M140", bed), ("M104", nozzle - 60), ("M190", bed), ("M109", nozzle)):
        say(order, word("S", heat, 0))
    say("G28")
    say("G92", "E0")
    say("M107")
    quill.lift(5.08)


def orders(quill: Quill, rank: int) -> None:
    """What is said before a layer: heat after the first one, the fan once it may run, and E from nought now and
    then.
    """
    want = quill.want
    quill.remark(f"storey {rank + 1}")
    if rank == 1:
        quill.say("M104", word("S", want["nozzle.temperature"], 0))
        quill.say("M140", word("S", want["bed.temperature"], 0))
    if rank == want["fan.off_layers"] and want["fan.power"]:
        quill.say("M106", word("S", want["fan.power"] * 255 / 100, 0))
    if rank % 5 == 4 and not quill.hand.relative:
        quill.say("G92", "E0")
        quill.e = 0.0


def close_file(quill: Quill) -> None:
    for line in ("M107", "M104 S0", "M140 S0"):
        quill.say(line)
    quill.lift(quill.at[2] * quill.unit + 10.16)
    if quill.hand.inch:
        quill.lines.append("%")
    else:
        quill.say("M2")


def speeds(layer: Layer, rank: int, want: Want) -> list[float]:
    """Of each stroke; all slowed alike where laying alone would take less than the least time of a layer."""
    names = ["first_layer" if rank == 0 else stroke.kind for stroke in layer.strokes]
    wanted = [want[f"{name}.speed"] for name in names]
    lengths = [stroke_length(stroke) for stroke in layer.strokes]
    seconds = sum(length / speed for length, speed in zip(lengths, wanted, strict=True))
    slow = min(1.0, seconds / want["layer.minimum_time"]) if want["layer.minimum_time"] else 1.0
    return [speed * slow for speed in wanted]


def settings_laid(job: Job, quill: Quill) -> Want:
    """The settings that this part could show: no speed of a support where none is laid."""
    absent = [f"{kind}." for kind in quill.words if kind not in quill.fastest]
    absent += ["retraction."] * (not quill.want["retraction.on"]) + ["layer.minimum"] * (
        not quill.want["layer.minimum_time"]
    )
    kept = {name: value for name, value in quill.want.items() if not name.startswith(tuple(absent))}
    kept |= {name: quill.want[name] for name in ("support.on", "raft.on", "retraction.on")}
    if job.shape == "mushroom":
        kept["support.gap"] = quill.want["layer.height"]
    return kept


def left_open(job: Job, quill: Quill, settings: Want) -> tuple[str, ...]:
    hidden = NEVER_EXACT | {
        f"{kind}.speed" for kind, top in quill.fastest.items() if settings.get(f"{kind}.speed", 0) > top + 0.01
    }
    if job.heights or job.shape == "vase":
        hidden.add("layer.height")
    if settings["raft.on"]:
        hidden.add("first_layer.height")
    return tuple(name for name in settings if name in hidden)


def make(job: Job) -> Made:
    want = BASE | dict(job.want)
    quill, layers = Quill(want, job.hand), plan(job, want)
    open_file(quill)
    for rank, layer in enumerate(layers):
        orders(quill, rank)
        for stroke, speed in zip(layer.strokes, speeds(layer, rank, want), strict=True):
            quill.lay(stroke, speed)
    close_file(quill)
    settings = settings_laid(job, quill)
    words = {kind: quill.words[kind] for kind in quill.fastest}
    truth = Truth(
        settings, quill.net, quill.pulls, len(layers), quill.fastest, words, quill.peak, left_open(job, quill, settings)
    )
    return Made("\n".join(quill.lines) + "\n", truth)


INCH = {
    **{"layer.height": 0.2032, "first_layer.height": 0.3048, "retraction.distance": 1.016, "retraction.speed": 25.4},
    **{
        "first_layer.speed": 19.05,
        "outer_wall.speed": 31.75,
        "inner_wall.speed": 38.1,
        "infill.speed": 63.5,
        "top.speed": 44.45,
    },
    **{"bottom.speed": 50.8, "travel.speed": 152.4},
}
JOBS = (
    ("dome", Job("dome", 24, {"layer.height": 0.2, "fan.power": 60.0, "retraction.lift": 0.4})),
    (
        "dome_arcs",
        Job("dome", 24, {"retraction.on": False, "bead.flow": 95.0}, Hand("german", relative=True, arcs=True)),
    ),
    ("vase", Job("vase", 40, {"wall.count": 1, "outer_wall.speed": 24.0}, Hand("german"))),
    ("vase_arcs", Job("vase", 40, {"wall.count": 1}, Hand(arcs=True, relative=True, small=True))),
    (
        "slots",
        Job("slots", 25, {"print.acceleration": 800, "travel.acceleration": 1500}, Hand("german", inside_first=True)),
    ),
    ("slots_inch", Job("slots", 20, INCH, Hand(inch=True))),
    ("slots_raft", Job("slots", 15, {"raft.on": True, "fan.power": 40.0, "fan.off_layers": 4}, Hand(relative=True))),
    ("towers", Job("towers", 25, {"layer.minimum_time": 14.0, "infill.density": 30.0}, Hand("german", joined=True))),
    ("towers_heights", Job("towers", 24, {"fan.off_layers": 0}, Hand(relative=True), (0.2, 0.15, 0.1, 0.25))),
    ("towers_numbered", Job("towers", 20, {"wall.count": 3, "filament.diameter": 2.85}, Hand(numbered=True))),
    ("mushroom", Job("mushroom", 24, {"support.on": True, "retraction.lift": 0.3}, Hand("german", relative=True))),
    (
        "mushroom_machine_pulls",
        Job(
            "mushroom",
            20,
            {"support.on": True, "retraction.distance": 2.4, "retraction.lift": 0.2},
            Hand(machine_pulls=True),
        ),
    ),
)
