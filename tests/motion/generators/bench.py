"""Lays an invented part into a motion file, from settings in vocabulary names: our own first generator.

The part and its numbers are made up. Beads are stadiums; walls are rings, the filling is parallel lines; a raft, a
skirt and supports are laid where the settings ask for them. ``Style`` says how the file is written.
"""

from __future__ import annotations

import math
from typing import NamedTuple

Settings = dict[str, float | bool | str]
Spot = tuple[float, float]

SOFT: Settings = {
    "layer.height": 0.2,
    "first_layer.height": 0.26,
    "first_layer.speed": 16.0,
    "first_layer.nozzle_temperature": 215.0,
    "first_layer.bed_temperature": 65.0,
    "bead.width": 0.45,
    "outer_wall.bead_width": 0.42,
    "first_layer.bead_width": 0.54,
    "bead.flow": 100.0,
    "wall.count": 2.0,
    "outer_wall.speed": 40.0,
    "inner_wall.speed": 40.0,
    "top.layers": 4.0,
    "bottom.layers": 4.0,
    "top.speed": 32.0,
    "bottom.speed": 40.0,
    "infill.density": 20.0,
    "infill.speed": 40.0,
    "support.on": False,
    "raft.on": False,
    "brim.on": False,
    "skirt.loops": 2.0,
    "nozzle.temperature": 215.0,
    "bed.temperature": 60.0,
    "fan.power": 100.0,
    "fan.off_layers": 1.0,
    "retraction.on": True,
    "retraction.distance": 0.8,
    "retraction.speed": 30.0,
    "retraction.minimum_travel": 1.5,
    "retraction.lift": 0.2,
    "travel.speed": 150.0,
    "filament.diameter": 1.75,
    "filament.maximum_flow": 4.0,
}
WORDS = {
    "outer_wall": "rim, seen",
    "inner_wall": "rim, behind",
    "infill": "core",
    "top": "lid",
    "bottom": "floor",
    "skirt": "rounds",
    "raft": "pad",
    "preparation": "wipe the tip",
}


class Style(NamedTuple):
    """How the file is written. size: mm across; rings: corners of a wall's ring."""

    size: float = 24.0
    layers: int = 24
    corners: int = 4
    relative: bool = True
    remarks: bool = True
    wipe_mm: float = 0.0
    pad_layers: int = 3
    start: tuple[str, ...] = ()  # a start block of the maker's own, in place of the plain one


def words_map() -> str:
    """The words map of these files."""
    lines = "".join(f'\n[[line]]\nis = "{kind}"\nsays = "{says}"\n' for kind, says in WORDS.items())
    return f'format = 1\n\n[words]\nname = "bench"\nabout = "Invented, of the project\'s own generator"\n{lines}'


class Writer:
    """A motion file in the making."""

    def __init__(self, settings: Settings, style: Style) -> None:
        self.settings, self.style = settings, style
        self.lines: list[str] = []
        self.spot: Spot = (0.0, 0.0)
        self.strand = 0.0
        self.laid_mm3 = 0.0
        self.kind = ""
        self.feed = 0.0
        self.z = 0.0
        self.started = False

    def number(self, name: str) -> float:
        return float(self.settings[name])

    def say(self, text: str) -> None:
        self.lines.append(text)

    def begin(self, kind: str) -> None:
        if kind != self.kind and self.style.remarks:
            self.say(f"; {WORDS[kind]}")
        self.kind = kind

    def _e(self, amount: float) -> str:
        self.strand = round(self.strand + amount, 5)
        return f"E{amount:.5f}" if self.style.relative else f"E{self.strand:.5f}"

    def _f(self, speed: float) -> str:
        feed = round(speed * 60, 3)
        if feed == self.feed:
            return ""
        self.feed = feed
        return f" F{feed:g}"

    def lay(self, path: list[Spot], width: float, height: float, speed: float) -> None:
        """A line of beads through these spots, from wherever the nozzle is."""
        area = ((width - height) * height + math.pi * height**2 / 4) * self.number("bead.flow") / 100
        self.travel(path[0])
        for spot in path[1:]:
            spot = (round(spot[0], 3), round(spot[1], 3))
            length = math.dist(self.spot, spot)
            if not length:
                continue
            fed = area * length / (math.pi * self.number("filament.diameter") ** 2 / 4)
            self.say(f"G1 X{spot[0]:.3f} Y{spot[1]:.3f} {self._e(fed)}{self._f(speed)}")
            self.laid_mm3 += area * length
            self.spot = spot
        self.started = True

    def travel(self, spot: Spot) -> None:
        spot = (round(spot[0], 3), round(spot[1], 3))
        length = math.dist(self.spot, spot)
        if length < 1e-9:
            return
        long = self.started and length >= self.number("retraction.minimum_travel") and self.settings["retraction.on"]
        pull, speed = self.number("retraction.distance"), self.number("retraction.speed")
        lift = self.number("retraction.lift") if long else 0.0
        if long:
            self._pull(pull, speed, spot)
        if lift:
            self.say(f"G1 Z{self.z + lift:.3f}{self._f(self.number('travel.speed') / 4)}")
        self.say(f"G0 X{spot[0]:.3f} Y{spot[1]:.3f}{self._f(self.number('travel.speed'))}")
        if lift:
            self.say(f"G1 Z{self.z:.3f}{self._f(self.number('travel.speed') / 4)}")
        if long:
            self.say(f"G1 {self._e(pull)}{self._f(speed)}")
        self.spot = spot

    def _pull(self, pull: float, speed: float, towards: Spot) -> None:
        wipe = self.style.wipe_mm
        length = math.dist(self.spot, towards)
        if not wipe or length <= wipe:
            self.say(f"G1 {self._e(-pull)}{self._f(speed)}")
            return
        self.say(f"G1 {self._e(-pull / 2)}{self._f(speed)}")
        share = wipe / length
        x = round(self.spot[0] + (towards[0] - self.spot[0]) * share, 3)
        y = round(self.spot[1] + (towards[1] - self.spot[1]) * share, 3)
        self.say(f"G1 X{x:.3f} Y{y:.3f} {self._e(-pull / 2)}{self._f(20)}")
        self.spot = (x, y)

    def up(self, z: float) -> None:
        self.z = round(z, 3)
        self.say(f"G1 Z{self.z:.3f}{self._f(self.number('travel.speed') / 4)}")


def ring(size: float, corners: int, inset: float) -> list[Spot]:
    """A closed ring round the middle of a 200 mm bed, pulled in."""
    radius = (size / 2 - inset) / math.cos(math.pi / corners)
    angles = [math.pi / corners + math.tau * at / corners for at in range(corners + 1)]
    return [(100 + radius * math.cos(angle), 100 + radius * math.sin(angle)) for angle in angles]


def head(writer: Writer) -> None:
    """Start block."""
    bed, nozzle = writer.number("first_layer.bed_temperature"), writer.number("first_layer.nozzle_temperature")
    plain = (
        f"M140 S{bed:g}",
        f"M104 S{nozzle:g}",
        f"M190 S{bed:g}",
        f"M109 S{nozzle:g}",
        "G28",
        "G92 E0",
        "G1 Z5 F480",
    )
    mode = "M83" if writer.style.relative else "M82"
    for text in (
        "; an invented part, laid by a test generator",
        "G21",
        "G90",
        mode,
        *(writer.style.start or plain),
        "M107",
    ):
        writer.say(text)
    writer.say("G1 X0 Y0 F6000")
    writer.feed = 6000.0


def lay_part(settings: Settings | None = None, style: Style = Style()) -> str:
    """The motion file's text."""
    writer = Writer({**SOFT, **(settings or {})}, style)
    head(writer)
    ground = 0.0
    if writer.settings["raft.on"]:
        ground = _pad(writer)
    for layer in range(style.layers):
        first = layer == 0
        step = writer.number("first_layer.height" if first else "layer.height")
        gap = float(writer.settings.get("raft.gap", 0.2)) if first and ground else 0.0
        ground = round(ground + gap + step, 3)
        writer.up(ground)
        _orders(writer, layer + (style.pad_layers if writer.settings["raft.on"] else 0))
        if first and not writer.settings["raft.on"]:
            _skirt(writer, 12)
        _walls(writer, layer)
        _inside(writer, layer)
    for text in ("G1 E-2 F1800", "M107", "M104 S0", "M140 S0", "G1 X10 Y200 F12000", "M84"):
        writer.say(text)
    return "\n".join(writer.lines) + "\n"


def _orders(writer: Writer, layer: int) -> None:
    number = writer.number
    if layer == 1:
        if number("nozzle.temperature") != number("first_layer.nozzle_temperature"):
            writer.say(f"M104 S{number('nozzle.temperature'):g}")
        if number("bed.temperature") != number("first_layer.bed_temperature"):
            writer.say(f"M140 S{number('bed.temperature'):g}")
    if layer == number("fan.off_layers"):
        writer.say(f"M106 S{round(number('fan.power') * 255 / 100)}")


def _bead(writer: Writer, layer: int, name: str) -> tuple[float, float]:
    if layer == 0:
        return writer.number("first_layer.bead_width"), writer.number("first_layer.height")
    return writer.number(name), writer.number("layer.height")


def _speed(writer: Writer, layer: int, name: str) -> float:
    return writer.number("first_layer.speed") if layer == 0 else writer.number(name)


def _skirt(writer: Writer, away: float) -> None:
    for loop in range(int(writer.number("skirt.loops"))):
        writer.begin("skirt")
        path = ring(writer.style.size + away + 2 * loop, writer.style.corners, 0)
        writer.lay(path, *_bead(writer, 0, "bead.width"), writer.number("first_layer.speed"))


def _walls(writer: Writer, layer: int) -> None:
    count, width = int(writer.number("wall.count")), writer.number("bead.width")
    for at in range(count - 1, -1, -1):
        kind = "inner_wall" if at else "outer_wall"
        writer.begin(kind)
        path = ring(writer.style.size, writer.style.corners, width * (at + 0.5))
        bead = _bead(writer, layer, "bead.width" if at else "outer_wall.bead_width")
        writer.lay(path, *bead, _speed(writer, layer, f"{kind}.speed"))


def _inside(writer: Writer, layer: int) -> None:
    below, above = int(writer.number("bottom.layers")), int(writer.number("top.layers"))
    kind = "bottom" if layer < below else "top" if layer >= writer.style.layers - above else "infill"
    width, height = _bead(writer, layer, "bead.width")
    solid = width - height * (1 - math.pi / 4)
    spacing = solid if kind != "infill" else width / (writer.number("infill.density") / 100)
    half = writer.style.size / 2 * (0.7 if writer.style.corners > 4 else 1) - writer.number("wall.count") * width - 0.1
    writer.begin(kind)
    count = int(2 * half / spacing)
    for at in range(count + 1):
        across = 100 - half + at * spacing
        ends = (100 - half, 100 + half) if at % 2 == 0 else (100 + half, 100 - half)
        path = [(end, across) if layer % 2 else (across, end) for end in ends]
        writer.lay(path, width, height, _speed(writer, layer, f"{kind}.speed"))


def _pad(writer: Writer) -> float:
    """A raft of parallel lines; returns its top."""
    z, margin = 0.0, float(writer.settings.get("raft.margin", 4.0))
    for layer in range(writer.style.pad_layers):
        height = writer.number("first_layer.height") if layer == 0 else 0.2
        z = round(z + height, 3)
        writer.up(z)
        _orders(writer, layer)
        if layer == 0:
            _skirt(writer, 12 + 2 * margin)
        writer.begin("raft")
        half = writer.style.size / 2 + margin
        for at in range(int(2 * half / 1.5)):
            across = 100 - half + 1.5 * at
            ends = (100 - half, 100 + half) if at % 2 == 0 else (100 + half, 100 - half)
            path = [(end, across) if layer % 2 else (across, end) for end in ends]
            name = "first_layer.speed" if layer == 0 else "raft.speed"
            writer.lay(path, 0.45, height, writer.number(name))
    return z
