"""What the invented workshop of `weir` makes: boxes, domes, vases, towers and mushrooms as strokes, layer by layer.
Lengths are mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import NamedTuple

Spot = tuple[float, float, float]
Box = tuple[float, float, float, float]  # left, front, right, back
Want = dict[str, float | bool]  # settings in vocabulary names and canonical units


class Hand(NamedTuple):
    """How the words are put on paper."""

    tongue: str = "english"
    relative: bool = False  # E counts from line to line
    inch: bool = False
    arcs: bool = False
    numbered: bool = False  # N words and checksums
    small: bool = False  # small letters, with blanks between letter and number
    machine_pulls: bool = False  # G10 and G11
    inside_first: bool = False
    joined: bool = False  # filling laid as one snake


class Job(NamedTuple):
    shape: str
    layers: int  # of the part: a raft comes on top; of a vase: its sole and its turns
    want: Mapping[str, float | bool] = MappingProxyType({})
    hand: Hand = Hand()
    heights: tuple[float, ...] = ()  # taken in turn above the first layer, where the height varies


class Stroke(NamedTuple):
    kind: str
    path: list[Spot]
    height: float
    turn: str = "G1"  # G2 and G3: each leg is an arc about `centre`
    centre: tuple[float, float] = (0.0, 0.0)
    fill: float = 1.0


def span(start: Spot, end: Spot, turn: str, offset: tuple[float, float]) -> float:
    """The length of one leg: a line, an arc about start + offset, or a screw line where z changes as well."""
    if turn == "G1":
        return math.dist(start, end)
    x, y = start[0] + offset[0], start[1] + offset[1]
    angle = math.atan2(end[1] - y, end[0] - x) - math.atan2(-offset[1], -offset[0])
    angle = (angle if turn == "G3" else -angle) % math.tau
    if start[:2] == end[:2]:
        angle = math.tau
    return math.hypot(angle * math.hypot(*offset), end[2] - start[2])


def stroke_length(stroke: Stroke) -> float:
    x, y = stroke.centre
    legs = zip(stroke.path, stroke.path[1:], strict=False)
    return sum(span(start, end, stroke.turn, (x - start[0], y - start[1])) for start, end in legs)


def loop(kind: str, box: Box, z: float, height: float, slot: tuple[float, float] | None = None) -> Stroke:
    """Once round a box; with a slot in its front, from the slot's right side round to its left."""
    left, front, right, back = box
    corners = [(left, front), (right, front), (right, back), (left, back), (left, front)]
    if slot:
        corners = [(slot[1], front), *corners[1:], (slot[0], front)]
    return Stroke(kind, [(x, y, z) for x, y in corners], height)


def shrunk(box: Box, by: float) -> Box:
    return (box[0] + by, box[1] + by, box[2] - by, box[3] - by)


def hatch(kind: str, box: Box, z: float, height: float, step: float, along_x: bool, joined: bool) -> list[Stroke]:
    left, front, right, back = box if along_x else (box[1], box[0], box[3], box[2])
    ends = []
    for row in range(int((back - front) / step + 1e-9) + 1):
        y = front + row * step
        ends.append([(left, y), (right, y)][:: -1 if row % 2 else 1])
    rows = [[(x, y, z) if along_x else (y, x, z) for x, y in row] for row in ends]
    if joined:
        rows = [[spot for row in rows for spot in row]]
    return [Stroke(kind, row, height) for row in rows]


def ring(
    kind: str, radius: float, z: float, height: float, seam: float, turn: str, legs: int, rise: float = 0.0
) -> Stroke:
    """Once round the point (60, 60), in `legs` legs; it climbs by `rise`."""
    sense = -1 if turn == "G2" else 1
    path = []
    for leg in range(legs + 1):
        angle = seam + sense * math.tau * (leg % legs) / legs
        path.append((60 + radius * math.cos(angle), 60 + radius * math.sin(angle), z + rise * leg / legs))
    return Stroke(kind, path, height, turn, (60.0, 60.0))


class Tier(NamedTuple):
    """One layer as it is planned: of `rank` from below and `left` layers still to come in the body."""

    rank: int
    left: int
    z: float
    height: float

    def filling(self, want: Want) -> str:
        if self.rank < want["bottom.layers"]:
            return "bottom"
        return "top" if self.left < want["top.layers"] else "infill"


def pitch(want: Want, height: float) -> float:
    return want["bead.width"] - height * (1 - math.pi / 4)


def block(box: Box, tier: Tier, want: Want, hand: Hand, slot: tuple[float, float] | None = None) -> list[Stroke]:
    step, width = pitch(want, tier.height), want["bead.width"]
    kinds = ["outer_wall"] + ["inner_wall"] * (want["wall.count"] - 1)
    walls = [loop(kind, shrunk(box, width / 2 + n * step), tier.z, tier.height, slot) for n, kind in enumerate(kinds)]
    kind = tier.filling(want)
    space = width * 100 / want["infill.density"] if kind == "infill" else step
    inside = shrunk(box, width / 2 + len(walls) * step)
    rows = hatch(kind, inside, tier.z, tier.height, space, tier.rank % 2 == 0, hand.joined)
    return (walls[::-1] if hand.inside_first else walls) + rows


def disc(radius: float, tier: Tier, want: Want, hand: Hand) -> Iterator[Stroke]:
    step, width, kind = pitch(want, tier.height), want["bead.width"], tier.filling(want)
    walls, count = want["wall.count"], 0
    radius -= width / 2
    while radius > 0.8:
        name = kind if count >= walls else "inner_wall" if count else "outer_wall"
        turn = ("G3", "G2")[count % 2] if hand.arcs else "G1"
        yield ring(name, radius, tier.z, tier.height, 0.4 * tier.rank, turn, 1 + count % 2 if hand.arcs else 36)
        count += 1
        radius -= width * 100 / want["infill.density"] if count > walls and kind == "infill" else step


def wind(tier: Tier, want: Want, hand: Hand) -> list[Stroke]:
    """One turn of the vase from the tier below up to this one. The very first turn grows from nothing to the full
    bead.
    """
    legs, turn = (3, "G3") if hand.arcs else (60, "G1")
    whole = ring("outer_wall", 8.0, tier.z - tier.height, tier.height, 0.0, turn, legs, tier.height)
    if not hand.arcs:  # it bellies; the radius follows z, so that turn joins turn
        swell = [1 + 0.15 * math.sin(z / 4) for _, _, z in whole.path]
        path = [(60 + (x - 60) * s, 60 + (y - 60) * s, z) for (x, y, z), s in zip(whole.path, swell, strict=True)]
        whole = whole._replace(path=path)
    if tier.rank > want["bottom.layers"]:
        return [whole]
    return [whole._replace(path=whole.path[n : n + 2], fill=(n + 0.5) / legs) for n in range(legs)]


def mushroom(job: Job, tier: Tier, want: Want) -> list[Stroke]:
    """A stem, then a cap over props that end one layer below it."""
    half, head, width = job.layers // 2, (50.0, 50.0, 70.0, 59.0), want["bead.width"]
    if tier.rank >= half:
        return block(head, tier._replace(rank=tier.rank - half), want, job.hand)
    laid = block((56.5, 50.0, 63.5, 59.0), tier._replace(left=job.layers), want, job.hand)
    for box in ((50.3, 50.3, 55.9, 58.7), (64.1, 50.3, 69.7, 58.7)):
        if tier.rank < half - 1:
            laid += hatch("support", box, tier.z, tier.height, width * 100 / want["support.density"], False, False)
    return laid


def shape_strokes(job: Job, tier: Tier, want: Want) -> list[Stroke]:
    if job.shape == "dome":
        return list(disc(math.sqrt(7.5**2 - min(tier.z, 6.8) ** 2), tier, want, job.hand))
    if job.shape == "vase":
        sole = tier.rank < want["bottom.layers"]
        return list(disc(8.0, tier, want, job.hand)) if sole else wind(tier, want, job.hand)
    if job.shape == "towers":
        return [s for x in (40, 75) for s in block((x, 50, x + 7, 58), tier, want, job.hand)]
    if job.shape == "mushroom":
        return mushroom(job, tier, want)
    slot = (57.0, 61.5) if tier.rank >= 6 else None
    return block((50, 52, 68, 66), tier, want, job.hand, slot)


def edges(strokes: list[Stroke], reach: float) -> Box:
    xs, ys = zip(*((x, y) for stroke in strokes for x, y, _ in stroke.path), strict=True)
    bend = max((math.dist(stroke.path[0][:2], stroke.centre) for stroke in strokes if stroke.turn != "G1"), default=0.0)
    box = (min(xs), min(ys), max(xs), max(ys)) if not bend else (60 - bend, 60 - bend, 60 + bend, 60 + bend)
    return shrunk(box, -reach)


class Layer(NamedTuple):
    z: float
    height: float
    strokes: list[Stroke]


def raft(first: list[Stroke], want: Want) -> list[Layer]:
    """Loose lines below, close lines in the layer that carries the part."""
    height, width, count = want["first_layer.height"], want["bead.width"], int(want["raft.layers"])
    box = shrunk(edges(first, width / 2 + want["raft.margin"]), width / 2)
    layers = []
    for rank in range(count):
        z, step = round((rank + 1) * height, 6), pitch(want, height) if rank == count - 1 else 2 * width
        layers.append(Layer(z, height, hatch("raft", box, z, height, step, rank % 2 == 0, False)))
    return layers


def plan(job: Job, want: Want) -> list[Layer]:
    """All layers from the bed up: the raft or the loops round the part, and the part."""
    z = want["raft.layers"] * want["first_layer.height"] + want["raft.gap"] if want["raft.on"] else 0.0
    layers = []
    for rank in range(job.layers):
        height = job.heights[rank % len(job.heights)] if job.heights else want["layer.height"]
        if rank == 0 and not want["raft.on"]:
            height = want["first_layer.height"]
        z = round(z + height, 6)
        layers.append(Layer(z, height, shape_strokes(job, Tier(rank, job.layers - 1 - rank, z, height), want)))
    if want["raft.on"]:
        return raft(layers[0].strokes, want) + layers
    z, height, first = layers[0]
    step = pitch(want, height)
    around = [loop("skirt", edges(first, 4 + n * step), z, height) for n in range(want["skirt.loops"])]
    return [Layer(z, height, around + first), *layers[1:]]
