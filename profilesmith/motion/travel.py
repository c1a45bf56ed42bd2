"""What happens between two laid lines: a pull, a lift, a travel, the strand fed back. Rows without laying, one by
one.
"""

from collections import deque
from math import hypot

from profilesmith.motion.figures import PathSpot, Pulls
from profilesmith.motion.parts import Parts

_NOTHING = 1e-9
LONG_TRAVEL_MM = 1.0  # a shorter step aside says nothing of the speed of travels


class Between:
    """One gap between laid lines, added up row by row; ``close`` when laying goes on."""

    __slots__ = (
        "any_jump",
        "line",
        "pulled",
        "rows",
        "speed",
        "start_z",
        "top_line",
        "top_speed",
        "top_z",
        "travel",
        "wiped",
    )

    def __init__(self) -> None:
        self.line = 0
        self.start_z: float | None = None
        self.top_z = 0.0
        self.travel = self.pulled = self.wiped = 0.0
        self.speed = 0.0
        self.rows = 0
        self.any_jump = False
        self.top_speed, self.top_line = 0.0, 0

    def take(self, parts: Parts, begin: int, end: int) -> float:
        """Rows of one part. Returns the seconds in which the strand alone moves."""
        rows = parts.rows
        if not self.rows:
            self.line = rows.line[begin]
            self.start_z = self.top_z = rows.z[begin - 1] if begin else rows.first[2]
        self.rows += end - begin
        self.top_z = max(self.top_z, *rows.z[begin:end])
        if rows.jumps:
            self.any_jump = self.any_jump or any(begin <= at < end for at in rows.jumps)
        seconds = 0.0
        for at in range(begin, end):
            strand, speed = rows.strand[at], rows.speed[at]
            if parts.lengths[at]:
                self._move(parts, at, strand, speed)
                continue
            seconds += abs(strand) / speed
            if strand < 0:
                self.pulled -= strand
                self.speed = speed
        return seconds

    def _move(self, parts: Parts, at: int, strand: float, speed: float) -> None:
        flat = hypot(parts.dx[at], parts.dy[at])
        self.travel += flat
        if strand < 0:
            self.pulled -= strand
            self.wiped -= strand
        elif flat > LONG_TRAVEL_MM and speed > self.top_speed:
            self.top_speed, self.top_line = speed, parts.rows.line[at]


class PullTally:
    """All gaps of a file."""

    def __init__(self) -> None:
        self.pulls = Pulls()
        self.fastest: PathSpot | None = None  # of travels between laid lines
        self._spots: deque[float] = deque()

    def close(self, gap: Between, end_z: float, fed: float, kind: str) -> None:
        """A gap that lies between two laid lines. fed: net filament until here, mm."""
        pulls = self.pulls
        if gap.any_jump:
            return
        if gap.top_speed and (self.fastest is None or gap.top_speed > self.fastest.value):
            self.fastest = PathSpot(gap.top_speed, gap.top_line, end_z)
        travel = gap.travel
        if gap.pulled > _NOTHING:
            self._pulled(gap, end_z, fed)
            if travel > _NOTHING and (pulls.shortest_pulled is None or travel < pulls.shortest_pulled.value):
                pulls.shortest_pulled = PathSpot(travel, gap.line, end_z, kind)
        elif pulls.longest_bare is None or travel > pulls.longest_bare.value:
            pulls.longest_bare = PathSpot(travel, gap.line, end_z, kind)

    def _pulled(self, gap: Between, end_z: float, fed: float) -> None:
        pulls, spots = self.pulls, self._spots
        pulls.count += 1
        self._count("length", pulls.lengths, gap.pulled, gap.line)
        if gap.speed:
            self._count("speed", pulls.speeds, gap.speed, gap.line)
        if gap.start_z is not None and abs(gap.start_z - end_z) < 1e-6:  # inside a layer: no step up is mixed in
            self._count("lift", pulls.lifts, max(0.0, gap.top_z - end_z), gap.line)
        if gap.wiped > _NOTHING:
            pulls.wiped += 1
        while spots and spots[0] <= fed - gap.pulled:
            spots.popleft()
        spots.append(fed)
        if pulls.most_on_one_spot is None or len(spots) > pulls.most_on_one_spot.value:
            pulls.most_on_one_spot = PathSpot(float(len(spots)), gap.line, end_z)

    def _count(self, what: str, held: dict[float, int], value: float, line: int) -> None:
        key = round(value, 3)
        times = held.get(key, 0)
        held[key] = times + 1
        if not times:
            self.pulls.first_line.setdefault((what, key), line)
