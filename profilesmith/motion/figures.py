"""Figures of a motion file: what was laid, how fast, how hot, how long. Sums by layer and kind of line; no
judgement.
"""

from collections import Counter

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.motion.doubt import Doubt
from profilesmith.physics.answer import Bracket

PREPARATION = "preparation"
"""Kind of what is laid before the first remark that tells a kind, in a file whose words are known."""


class Extremes:
    """The least and the largest of some numbers; both None before the first."""

    __slots__ = ("high", "low")

    def __init__(self) -> None:
        self.low: float | None = None
        self.high: float | None = None

    def add(self, value: float) -> None:
        if self.low is None or value < self.low:
            self.low = value
        if self.high is None or value > self.high:
            self.high = value


class KindSum:
    """One kind of line in one layer. length, strand: mm; fast, slow: seconds at the two ends of the bracket of time.

    stretches: how often the nozzle began to lay; loops: stretches that ended where they began; top_speed: mm/s, at
    top_line; section: least and largest mm of filament a mm of path, over whole stretches of some length.
    """

    __slots__ = ("fast", "length", "lines", "loops", "section", "slow", "strand", "stretches", "top_line", "top_speed")

    def __init__(self) -> None:
        self.length = self.strand = self.fast = self.slow = self.top_speed = 0.0
        self.stretches = self.loops = self.top_line = 0
        self.section = Extremes()
        self.lines: list[tuple[float, float, float]] = []

    def add(self, length: float, strand: float, fast: float, slow: float) -> None:
        """More of it."""
        self.length += length
        self.strand += strand
        self.fast += fast
        self.slow += slow


class Layer:
    """All that was laid at one height. line: of its first row; fan, nozzle, bed, chamber: while it was laid."""

    __slots__ = ("bed", "chamber", "fan", "kinds", "line", "nozzle", "order", "sloped", "z")

    def __init__(self, z: float, line: int, order: int) -> None:
        self.z, self.line, self.order = z, line, order
        self.kinds: dict[str, KindSum] = {}
        self.fan, self.nozzle, self.bed, self.chamber = Extremes(), Extremes(), Extremes(), Extremes()
        self.sloped = 0.0

    @property
    def fast(self) -> float:
        """Seconds of laying, at least."""
        return sum(held.fast for held in self.kinds.values())

    @property
    def slow(self) -> float:
        """Seconds of laying, at most."""
        return sum(held.slow for held in self.kinds.values())

    def sums(self, but: frozenset[str] = frozenset()) -> list[KindSum]:
        return [held for kind, held in self.kinds.items() if kind not in but]


class PathSpot(NamedTuple):
    """A place that is worth looking at. value: by what it is listed for."""

    value: float
    line: int
    z: float
    kind: str = ""


def spot_of(layer: Layer) -> PathSpot:
    """Where a layer begins."""
    return PathSpot(layer.z, layer.line, layer.z)


class Pulls:
    """Pulls between laid lines, in counts: how often each length (mm), speed (mm/s) and lift (mm) came.

    wiped: pulls of which a part was made on the move; words: G10 whose length is not known; longest_bare: the longest
    travel without a pull; shortest_pulled: the shortest with one; most_on_one_spot: how often a piece of strand was
    pulled at most.
    """

    def __init__(self) -> None:
        self.lengths: Counter[float] = Counter()
        self.speeds: Counter[float] = Counter()
        self.lifts: Counter[float] = Counter()
        self.first_line: dict[tuple[str, float], int] = {}
        self.wiped = self.words = self.count = 0
        self.longest_bare: PathSpot | None = None
        self.shortest_pulled: PathSpot | None = None
        self.most_on_one_spot: PathSpot | None = None


class Times(NamedTuple):
    """Seconds. moving: moves, pulls and dwells; heating: how often heat is waited for; persons: stops until somebody
    goes on.
    """

    moving: Bracket
    travels: Bracket
    pulls: Bracket
    dwells: Bracket
    heating: int
    persons: tuple[int, ...]


class Figures(NamedTuple):
    """All figures of a file. layers: by height; flows: kind -> the largest mean feed over 1 mm of path, mm/s of
    filament.

    worst_flows: the ten places of the largest such means; layer_flows: by height; fed: mm of filament laid and left;
    accelerations: those that the file orders, mm/s2; first_laid: line; heat_before: whether the nozzle was waited for
    before; lines: of the file.
    """

    layers: tuple[Layer, ...]
    pulls: Pulls
    times: Times
    flows: dict[str, PathSpot]
    worst_flows: tuple[PathSpot, ...]
    layer_flows: dict[float, float]
    travel_speed: PathSpot | None
    fed: float
    accelerations: dict[str, tuple[float, ...]]
    heat_before: bool | None
    doubts: tuple[Doubt, ...]
    notes: dict[str, int]
    diameter_told: float | None
    lines: int
    laid_rows: int
    end_told: bool
    kinds_told: bool
    targets: dict[str, float | None]
    origins: tuple[tuple[str, int], ...]
    first_laid_z: float | None
