"""Generator ``quay``: boxes and tubes, on a raft or not, with supports or not, in several ways of laying. All invented.

Written from the words of NISTIR 6556 and of common practice (E, M82/M83, M104 to M109, M140, M190, M106, M107, M204)
alone. Beads are stadiums (rectangle with round ends); E is bead volume over the strand's cross-section. One job is one
file.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

Point = tuple[float, float]


class Job(NamedTuple):
    """Lengths mm, speeds mm/s, heat °C, fan %, acceleration mm/s2. Speeds by kind of line.

    relative: E counts on from word to word. wiped: a pull goes along the last 2 mm laid. joined: the filling begins
    where the walls end, without a travel. slowed: the smallest layers are laid at 60 %. varied: every third line of
    filling is 20 % wider.
    """

    shape: str = "box"
    width: float = 30.0
    height_layers: int = 12
    layer: float = 0.2
    first_layer: float = 0.28
    bead: float = 0.45
    strand: float = 1.75
    walls: int = 2
    closing_above: int = 3
    closing_below: int = 3
    filling: float = 20.0
    raft_layers: int = 0
    raft_gap: float = 0.22
    supports: bool = False
    rounds: int = 2
    speeds: tuple[tuple[str, float], ...] = (
        ("rim", 32.0),
        ("inside rim", 38.0),
        ("cover", 30.0),
        ("core", 40.0),
        ("prop", 36.0),
        ("pad", 24.0),
        ("round", 20.0),
    )
    first_speed: float = 16.0
    travel: float = 140.0
    nozzle: float = 215.0
    first_nozzle: float = 220.0
    bed: float = 45.0
    first_bed: float = 50.0
    fan: float = 50.0
    fan_off_layers: int = 2
    pull: float = 1.5
    pull_speed: float = 25.0
    lift: float = 0.2
    acceleration: float = 800.0
    relative: bool = True
    wiped: bool = False
    joined: bool = False
    slowed: bool = False
    varied: bool = False


class Made(NamedTuple):
    text: str
    truth: dict[str, object]


def area(width: float, height: float) -> float:
    """Stadium, mm2."""
    return (width - height) * height + math.pi * height * height / 4


class Pen:
    """Writes words and keeps count of what it really laid."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self.lines: list[str] = []
        self.at: Point = (0.0, 0.0)
        self.z = 0.0
        self.e = 0.0
        self.net = 0.0
        self.pulls = 0
        self.pulled = False
        self.feed = 0.0
        self.fastest: dict[str, float] = {}
        self.flow_peak = 0.0
        self.trail: list[Point] = []
        self.height = job.first_layer
        self.slow = 1.0

    def word(self, text: str) -> None:
        self.lines.append(text)

    def strand(self, length: float) -> str:
        """The E word for so many millimetres more."""
        self.e = round(length, 5) if self.job.relative else round(self.e + length, 5)
        self.net += length
        return f"E{self.e:.5f}"

    def pull(self) -> None:
        if self.pulled or not self.job.pull:
            return
        self.pulled, self.pulls = True, self.pulls + 1
        feed = f"F{self.job.pull_speed * 60:.0f}"
        if self.job.wiped and len(self.trail) > 1:
            back = toward(self.at, self.trail[-2], min(2.0, 0.8 * math.dist(self.at, self.trail[-2])))
            self.word(f"G1 X{back[0]:.3f} Y{back[1]:.3f} {self.strand(-self.job.pull)} {feed}")
            self.at = back
        else:
            self.word(f"G1 {self.strand(-self.job.pull)} {feed}")
        if self.job.lift:
            self.word(f"G0 Z{self.z + self.job.lift:.3f} F600")

    def travel(self, point: Point) -> None:
        if math.dist(self.at, point) < 1e-6:
            return
        if math.dist(self.at, point) > 1.5:
            self.pull()
        self.word(f"G0 X{point[0]:.3f} Y{point[1]:.3f} F{self.job.travel * 60:.0f}")
        self.at, self.feed = point, 0.0
        if self.pulled:
            if self.job.lift:
                self.word(f"G0 Z{self.z:.3f} F600")
            self.word(f"G1 {self.strand(self.job.pull)} F{self.job.pull_speed * 60:.0f}")
            self.pulled = False

    def lay(self, kind: str, points: list[Point], speed: float, wide: float = 1.0) -> None:
        """One run of beads from the first point on."""
        self.travel(points[0])
        self.trail = [points[0]]
        section = area(self.job.bead * wide, self.height)
        speed = speed * self.slow
        for point in points[1:]:
            length = math.dist(self.at, point)
            if length < 1e-4:
                continue
            words = (
                f"G1 X{point[0]:.3f} Y{point[1]:.3f} "
                f"{self.strand(length * section / (math.pi * self.job.strand**2 / 4))}"
            )
            feed = round(speed * 60)
            if feed != self.feed:
                words, self.feed = f"{words} F{feed}", feed
            self.word(words)
            self.fastest[kind] = max(self.fastest.get(kind, 0.0), feed / 60)
            if length >= 1:
                self.flow_peak = max(self.flow_peak, section * feed / 60)
            self.at = point
            self.trail.append(point)


def toward(start: Point, goal: Point, length: float) -> Point:
    whole = math.dist(start, goal)
    share = length / whole if whole else 0.0
    return (start[0] + (goal[0] - start[0]) * share, start[1] + (goal[1] - start[1]) * share)


def ring(job: Job, inset: float) -> list[Point]:
    """The closed outline, so far inside of the part's edge; centre at 100, 100."""
    half = job.width / 2 - inset
    if job.shape == "box":
        corners = [(-half, -half), (half, -half), (half, half), (-half, half), (-half, -half)]
        return [(100 + x, 100 + y) for x, y in corners]
    steps = 72
    turns = [2 * math.pi * step / steps for step in range(steps + 1)]
    return [(100 + half * math.cos(turn), 100 + half * math.sin(turn)) for turn in turns]


def rows(job: Job, half: float, spacing: float, layer: int) -> Iterator[list[Point]]:
    """Straight lines to and fro inside of a square or a circle, along X and Y by turns."""
    count = max(1, int(2 * half / spacing))
    for number in range(count):
        across = -half + (number + 0.5) * 2 * half / count
        reach = half if job.shape == "box" else math.sqrt(max(half * half - across * across, 0.0))
        if reach < 0.5:
            continue
        ends = [(-reach, across), (reach, across)][:: 1 if number % 2 == 0 else -1]
        yield [(100 + x, 100 + y) if layer % 2 == 0 else (100 + y, 100 + x) for x, y in ends]


def make(job: Job) -> Made:
    pen = Pen(job)
    _begin(pen)
    height = 0.0
    for pad in range(job.raft_layers):
        pen.height = job.first_layer if pad == 0 else job.layer
        height = _level(pen, height + pen.height, pad)
        _pad(pen, pad)
    for layer in range(job.height_layers):
        first = layer == 0 and not job.raft_layers
        pen.height = job.first_layer if first else job.layer
        step = pen.height + (job.raft_gap if layer == 0 and job.raft_layers else 0.0)
        height = _level(pen, height + step, layer + job.raft_layers)
        pen.slow = 0.6 if job.slowed and layer >= job.height_layers - 2 else 1.0
        _part(pen, layer, first)
    _end(pen)
    return Made("\n".join(pen.lines) + "\n", _truth(pen))


def _begin(pen: Pen) -> None:
    job = pen.job
    pen.word("( invented file, made by the generator quay )")
    for text in (
        "G21 G90",
        "M83" if job.relative else "M82",
        "M107",
        f"M190 S{job.first_bed:g}",
        f"M109 S{job.first_nozzle:g}",
    ):
        pen.word(text)
    pen.word("G28 Z X Y")
    pen.word("G92 E0")
    pen.word(f"M204 S{job.acceleration:g}")


def _level(pen: Pen, z: float, layer: int) -> float:
    job = pen.job
    pen.word(f"( slab {layer} )")
    pen.pull()
    pen.z = round(z, 4)
    pen.word(f"G0 Z{pen.z + (job.lift if pen.pulled else 0):.3f} F600")
    if layer == 1:
        pen.word(f"M104 S{job.nozzle:g}")
        pen.word(f"M140 S{job.bed:g}")
    if layer == job.fan_off_layers and job.fan:
        pen.word(f"M106 S{round(job.fan * 255 / 100)}")
    if not job.relative:
        pen.word("G92 E0")
        pen.e = 0.0
    return pen.z


def _speed(job: Job, kind: str, first: bool) -> float:
    return job.first_speed if first else dict(job.speeds)[kind]


def _pad(pen: Pen, pad: int) -> None:
    job = pen.job
    pen.word("( lays: pad )")
    for line in rows(job, job.width / 2 + 3, job.bead * (2.0 if pad == 0 else 1.2), pad):
        pen.lay("pad", line, _speed(job, "pad", pad == 0))


def _part(pen: Pen, layer: int, first: bool) -> None:
    job = pen.job
    if first and job.rounds:
        pen.word("( lays: round )")
        for number in range(job.rounds):
            pen.lay("round", ring(job, -4 - number * job.bead), _speed(job, "round", True))
    if job.supports:
        pen.word("( lays: prop )")
        for number in range(6):
            x = 100 + job.width / 2 + 3 + number * 2.25
            pen.lay("prop", [(x, 92.0), (x, 108.0)], _speed(job, "prop", first))
    for wall in range(job.walls):
        kind = "rim" if wall == 0 else "inside rim"
        pen.word(f"( lays: {kind} )")
        pen.lay(kind, ring(job, job.bead * (wall + 0.5)), _speed(job, kind, first))
    closing = layer < job.closing_below or layer >= job.height_layers - job.closing_above
    kind = "cover" if closing else "core"
    half = job.width / 2 - job.bead * (job.walls + 0.25)
    spacing = job.bead if closing else job.bead * 100 / job.filling
    pen.word(f"( lays: {kind} )")
    for number, line in enumerate(rows(job, half, spacing, layer)):
        run = [pen.at, *line] if job.joined and number == 0 else line
        pen.lay(kind, run, _speed(job, kind, first), 1.2 if job.varied and number % 3 == 2 else 1.0)


def _end(pen: Pen) -> None:
    pen.word("( lays nothing more )")
    pen.pull()
    for text in ("M107", "M140 S0", "M104 S0", "G91", "G0 Z10 F600", "G90", "M2"):
        pen.word(text)


def _truth(pen: Pen) -> dict[str, object]:
    job = pen.job
    settings: dict[str, float | bool] = {
        "layer.height": job.layer,
        "first_layer.height": job.first_layer,
        "nozzle.temperature": job.nozzle,
        "first_layer.nozzle_temperature": job.first_nozzle,
        "bed.temperature": job.bed,
        "first_layer.bed_temperature": job.first_bed,
        "fan.power": round(job.fan * 255 / 100) / 2.55,
        "fan.off_layers": job.fan_off_layers,
        "retraction.on": bool(job.pull),
        "retraction.distance": job.pull,
        "retraction.speed": job.pull_speed,
        "retraction.lift": job.lift if job.pull else 0.0,
        "raft.on": job.raft_layers > 0,
        "raft.layers": job.raft_layers,
        "wall.count": job.walls,
        "top.layers": job.closing_above,
        "bottom.layers": job.closing_below,
        "support.on": job.supports,
        "travel.speed": job.travel,
        "print.acceleration": job.acceleration,
    }
    words = {
        "outer_wall": "lays: rim",
        "inner_wall": "lays: inside rim",
        "closing": "lays: cover",
        "infill": "lays: core",
        "support": "lays: prop",
        "raft": "lays: pad",
        "skirt": "lays: round",
    }
    net = pen.net + (pen.job.pull if pen.pulled else 0.0)
    return {
        "settings": settings,
        "filament_mm": net,
        "pulls": pen.pulls,
        "layers": job.height_layers + job.raft_layers,
        "fastest": pen.fastest,
        "words": words,
        "flow_peak": pen.flow_peak,
    }


JOBS: tuple[tuple[str, Job], ...] = (
    ("plain-box", Job()),
    ("absolute-tube", Job(shape="tube", relative=False, walls=3)),
    ("raft-and-props", Job(raft_layers=3, supports=True, first_layer=0.3)),
    ("wiped", Job(wiped=True, lift=0.0)),
    ("joined", Job(joined=True, shape="tube", filling=12)),
    ("slowed", Job(slowed=True, height_layers=16)),
    ("varied", Job(varied=True, relative=False)),
    ("no-pulls", Job(pull=0.0, lift=0.0, fan=0.0)),
    ("thin-layers", Job(layer=0.12, first_layer=0.2, height_layers=20, closing_above=5, closing_below=5)),
)
