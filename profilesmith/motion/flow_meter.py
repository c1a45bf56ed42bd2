"""The largest mean flow over a millimetre of laid path. Shorter lines err by the rounding of their own coordinates.

The windows lie on the laid path alone, travels left out. Between the ends of rows the mean is a quotient of two
straight functions of the window's place, so that its largest value lies where a window begins or ends with a row; and
no window is above the fastest row in it, so that few windows need a look. Own derivation.
"""

from bisect import bisect_left
from collections.abc import Sequence
from itertools import accumulate
from operator import itemgetter, mul

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.motion.figures import PREPARATION, PathSpot
from profilesmith.motion.parts import Parts

WINDOW_MM = 1.0
WORST = 10
# A row is looked at where its own flow is this many times the largest mean so far: so that mean is right to 0.1 %.
WORTH = 1.001


class _Part(NamedTuple):
    """Rows that were laid without a break. most: the largest own flow of a row; first: index of its first row."""

    most: float
    first: int
    kind: str
    z: float
    flow: Sequence[float]
    lines: Sequence[int]


class FlowMeter:
    """Takes laid rows as they come; keeps a millimetre or two of them."""

    def __init__(self) -> None:
        self.best: dict[tuple[str, float], PathSpot] = {}  # by kind and height
        self._length: list[float] = []
        self._fed: list[float] = []
        self._seconds: list[float] = []
        self._laid: list[bool] = []  # all others are no part of the path
        self._most: dict[tuple[str, float], float] = {}  # of rows that were not worth a look
        self._parts: list[_Part] = []
        self._base = 0  # where the last piece begins

    def extend(self, length: list[float], fed: list[float], seconds: list[float], laid: list[bool]) -> None:
        """Rows of a piece: mm, mm of filament, seconds at the ordered speed; laid: those that lay material."""
        self._base = len(self._length)
        self._length += length
        self._fed += fed
        self._seconds += seconds
        self._laid += laid

    def add(self, most: float, span: tuple[int, int], kind: str, z: float, parts: Parts) -> None:
        """A part of that piece that is worth a look, where it is. most: the largest flow of one of its rows."""
        where = kind, z
        old = self.best.get(where)
        if old is not None and most <= old.value * WORTH:
            self._passed_over(where, most)
        else:
            begin, end = span
            flow, lines = parts.flows[begin:end], parts.rows.line[begin:end]
            self._parts.append(_Part(most, self._base + begin, kind, z, flow, lines))

    def judge(self, final: bool = False) -> None:
        """Look at all rows whose windows are complete, and forget what no window can reach any more."""
        count = len(self._length)
        end = count if final else self._before(count, WINDOW_MM)
        for part in sorted(self._parts, key=itemgetter(0), reverse=True):
            self._look(part, end)
        keep = self._before(end, 2 * WINDOW_MM)
        for column in (self._length, self._fed, self._seconds):
            del column[:keep]
        del self._laid[:keep]
        self._parts = [
            part._replace(first=part.first - keep) for part in self._parts if part.first + len(part.flow) > end
        ]

    def _before(self, row: int, distance: float) -> int:
        """The last row that begins this far, or farther, before a row; 0 where the path is shorter."""
        while row > 0 and distance > 0:
            row -= 1
            distance -= self._path_mm(row)
        return row

    def _path_mm(self, row: int) -> float:
        return self._length[row] if self._laid[row] else 0.0

    def _look(self, part: _Part, end: int) -> None:
        """The rows of one part, the fastest first, until none is worth a look."""
        best = self.best.get((part.kind, part.z))
        if best is not None and part.most <= best.value * WORTH:
            self._passed_over((part.kind, part.z), part.most)
            return
        for at in sorted(range(len(part.flow)), key=part.flow.__getitem__, reverse=True):
            best = self.best.get((part.kind, part.z))
            if best is not None and part.flow[at] <= best.value * WORTH:
                self._passed_over((part.kind, part.z), part.flow[at])
                return
            if 0 <= part.first + at < end:
                mean = self._mean_about(part.first + at)
                self._keep(PathSpot(mean, part.lines[at], part.z, part.kind))

    def _passed_over(self, where: tuple[str, float], flow: float) -> None:
        """A row that was not looked at: no window about it is above its own flow."""
        if flow > self._most.get(where, 0.0):
            self._most[where] = flow

    def _upper(self, where: tuple[str, float]) -> PathSpot:
        """The largest mean at one place, or what it can be at most: 0.1 % more."""
        spot = self.best[where]
        return spot._replace(value=max(spot.value, self._most.get(where, 0.0)))

    def _mean_about(self, row: int) -> float:
        """The largest mean among windows that touch a row."""
        length = self._length[row]
        if length >= WINDOW_MM:
            return self._fed[row] / self._seconds[row]
        first, last = self._before(row, WINDOW_MM), row + 1
        room = WINDOW_MM
        while last < len(self._length) and room > 0:
            room -= self._path_mm(last)
            last += 1
        # At an end of the whole path the windows reach farther on the other side.
        if last == len(self._length):
            first = self._before(first, WINDOW_MM)
        while first == 0 and last < len(self._length) and room > -WINDOW_MM:
            room -= self._path_mm(last)
            last += 1
        laid = self._laid[first:last]
        columns = [list(map(mul, column[first:last], laid)) for column in (self._length, self._fed, self._seconds)]
        return _largest_mean([list(accumulate(column, initial=0.0)) for column in columns], row - first)

    def _keep(self, spot: PathSpot) -> None:
        old = self.best.get((spot.kind, spot.z))
        if old is None or spot.value > old.value:
            self.best[(spot.kind, spot.z)] = spot

    def by_height(self) -> dict[float, float]:
        """The largest of each layer, mm of filament a second."""
        highest: dict[float, float] = {}
        for kind, z in self.best:
            if kind != PREPARATION:
                highest[z] = max(highest.get(z, 0.0), self._upper((kind, z)).value)
        return highest

    def by_kind(self) -> dict[str, PathSpot]:
        """The largest of each kind of line."""
        highest: dict[str, PathSpot] = {}
        for kind, z in sorted(self.best):
            spot = self._upper((kind, z))
            if kind not in highest or spot.value > highest[kind].value:
                highest[kind] = spot
        return highest

    def worst(self) -> tuple[PathSpot, ...]:
        """The ten layers and kinds with the largest."""
        return tuple(sorted(map(self._upper, self.best), key=lambda spot: (-spot.value, spot.line))[:WORST])


def _largest_mean(sums: list[list[float]], at: int) -> float:
    """The largest mean among windows that touch this row."""
    path, fed, seconds = sums
    if path[at + 1] - path[at] >= WINDOW_MM:
        return (fed[at + 1] - fed[at]) / (seconds[at + 1] - seconds[at])
    if path[-1] <= WINDOW_MM:
        return fed[-1] / seconds[-1]
    first = bisect_left(path, path[at] - WINDOW_MM)
    last = bisect_left(path, path[at + 1] + WINDOW_MM)
    begins = [*path[first : at + 1], *(end - WINDOW_MM for end in path[at + 1 : last + 1])]
    means = []
    for begin in begins:
        start = min(max(begin, 0.0), path[-1] - WINDOW_MM)
        low, high = ([_between(path, column, spot) for column in (fed, seconds)] for spot in (start, start + WINDOW_MM))
        means.append((high[0] - low[0]) / (high[1] - low[1]))
    return max(means)


def _between(path: list[float], column: list[float], spot: float) -> float:
    """A running sum at any place of the path."""
    at = min(max(bisect_left(path, spot), 1), len(path) - 1)
    span = path[at] - path[at - 1]
    share = (spot - path[at - 1]) / span if span else 1.0
    return column[at - 1] + (column[at] - column[at - 1]) * share
