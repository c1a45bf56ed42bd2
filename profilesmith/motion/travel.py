"""What happens between two laid lines: a pull, a lift, a travel, the strand fed back. Rows without laying, one by
one.
"""

from collections import deque

from profilesmith.motion.figures import Pulls, Spot
from profilesmith.motion.rows import Rows

_NOTHING = 1e-9
LONG_TRAVEL_MM = 1.0  # a shorter step aside says nothing of the speed of travels


class Between:
    """One gap between laid lines, added up row by row; ``close`` when laying goes on."""

    def __init__(self) -> None:
        self.line = 0
        self.start_z: float | None = None
        self.top_z = 0.0
        self.travel = self.pulled = self.wiped = self.fed = 0.0
        self.speed = 0.0
        self.rows = 0
        self.any_jump = False
        self.top_speed, self.top_line = 0.0, 0

    def add(self, rows: Rows, at: int, length: float, flat: float, jump: bool) -> None:
        if not self.rows:
            self.line = rows.line[at]
            self.start_z = rows.z[at - 1] if at else rows.first[2]
            self.top_z = self.start_z
        self.rows += 1
        self.any_jump = self.any_jump or jump
        self.top_z = max(self.top_z, rows.z[at])
        self.travel += flat
        strand = rows.strand[at]
        if flat > LONG_TRAVEL_MM and strand == 0.0 and rows.speed[at] > self.top_speed:
            self.top_speed, self.top_line = rows.speed[at], rows.line[at]
        if strand < 0:
            self.pulled -= strand
            if length:
                self.wiped -= strand
            else:
                self.speed = rows.speed[at]
        elif not length:
            self.fed += strand


class PullTally:
    """All gaps of a file."""

    def __init__(self) -> None:
        self.pulls = Pulls()
        self.fastest: Spot | None = None  # of travels between laid lines
        self._spots: deque[float] = deque()

    def close(self, gap: Between, end_z: float, fed: float, kind: str) -> None:
        """A gap that lies between two laid lines. fed: net filament until here, mm."""
        pulls = self.pulls
        if gap.any_jump:
            return
        if gap.top_speed and (self.fastest is None or gap.top_speed > self.fastest.value):
            self.fastest = Spot(gap.top_speed, gap.top_line, end_z)
        spot = Spot(gap.travel, gap.line, end_z, kind)
        if gap.pulled > _NOTHING:
            self._pulled(gap, end_z, fed)
            if gap.travel > _NOTHING and (pulls.shortest_pulled is None or spot.value < pulls.shortest_pulled.value):
                pulls.shortest_pulled = spot
        elif pulls.longest_bare is None or spot.value > pulls.longest_bare.value:
            pulls.longest_bare = spot

    def _pulled(self, gap: Between, end_z: float, fed: float) -> None:
        pulls = self.pulls
        pulls.count += 1
        self._count("length", pulls.lengths, gap.pulled, gap.line)
        if gap.speed:
            self._count("speed", pulls.speeds, gap.speed, gap.line)
        if gap.start_z is not None and abs(gap.start_z - end_z) < 1e-6:  # inside a layer: no step up is mixed in
            self._count("lift", pulls.lifts, max(0.0, gap.top_z - end_z), gap.line)
        if gap.wiped > _NOTHING:
            pulls.wiped += 1
        while self._spots and self._spots[0] <= fed - gap.pulled:
            self._spots.popleft()
        self._spots.append(fed)
        if pulls.most_on_one_spot is None or len(self._spots) > pulls.most_on_one_spot.value:
            pulls.most_on_one_spot = Spot(float(len(self._spots)), gap.line, end_z)

    def _count(self, what: str, held: dict[float, int], value: float, line: int) -> None:
        key = round(value, 3)
        held[key] = held.get(key, 0) + 1
        self.pulls.first_line.setdefault((what, key), line)
