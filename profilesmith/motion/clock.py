"""Time of moves with look-ahead, as a bracket over what is not known: how sharp a corner is taken, how hard is
sped up.
"""

from collections.abc import Sequence
from math import inf
from types import ModuleType

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.motion import plain_columns


class Drive(NamedTuple):
    """One end of the bracket. sudden: mm/s that a corner may change at once; print, travel, limit: mm/s2."""

    sudden: float
    print: float
    travel: float
    limit: float = inf

    @property
    def laying(self) -> float:
        return min(self.print, self.limit)

    @property
    def travelling(self) -> float:
        return min(self.travel, self.limit)


class Pace(NamedTuple):
    """What is known of a machine's pace, beside what its file orders. Both ends: quick first, slow second.

    Without any fact: corners and accelerations of desktop machines [common practice, no source].
    """

    quick: Drive = Drive(20.0, 5000.0, 5000.0)
    slow: Drive = Drive(2.0, 500.0, 500.0)

    @classmethod
    def of(
        cls, print_mm_s2: float | None, travel_mm_s2: float | None = None, sudden_mm_s: float | None = None
    ) -> "Pace":
        """Both ends narrowed by what facts or a ledger tell."""
        ends = []
        for end in (cls().quick, cls().slow):
            laying = print_mm_s2 or end.print
            ends.append(Drive(sudden_mm_s or end.sudden, laying, travel_mm_s2 or print_mm_s2 or end.travel))
        return cls(*ends)


class Timed(NamedTuple):
    """Seconds of the first ``rows`` rows at both ends, and at the ordered speed; flow: mm of filament a second at
    that.
    """

    rows: int
    quick: Sequence[float]
    slow: Sequence[float]
    ordered: Sequence[float]
    flow: Sequence[float]


class Columns(NamedTuple):
    """What the clock needs to know of rows. stop: rows before which the machine stands."""

    dx: Sequence[float]
    dy: Sequence[float]
    dz: Sequence[float]
    length: Sequence[float]
    speed: Sequence[float]
    strand: Sequence[float]
    laid: Sequence[bool]
    stops: Sequence[int]
    orders: Sequence[tuple[int, str, float]]  # row, print-acceleration | travel-acceleration | sudden, value


class Clock:
    """Keeps, from piece to piece, how fast the machine is at the cut."""

    def __init__(self, pace: Pace, columns: ModuleType = plain_columns) -> None:
        self.drives = [pace.quick, pace.slow]
        self.entry = [0.0, 0.0]
        self.columns = columns
        self.before: tuple[float, ...] = (0.0, 0.0, 0.0, 0.0)
        self.top_before = 0.0

    def time(self, moves: Columns, final: bool) -> Timed:
        """Seconds of all rows whose time no later row can change; of all when final."""
        columns = self.columns
        top = columns.squares(moves.speed)
        bend = columns.bends(moves.dx, moves.dy, moves.dz, moves.length, self.before)
        for at in moves.stops:
            if at < len(bend):
                bend[at] = 0.0
        accelerations = [self._accelerations(moves, end) for end in (0, 1)]
        gains = [columns.gains(moves.length, column) for column in accelerations]
        count = len(bend) if final else _cut(bend, gains, columns.largest(top))
        limits = columns.neighbours(top, self.top_before)
        times: list[Sequence[float]] = []
        for end, drive in enumerate(self.drives):
            sudden = self._squares(len(bend), moves, drive)
            w = columns.look_ahead(bend, sudden, limits, gains[end], self.entry[end])
            times.append(columns.times(w, moves.speed, top, gains[end], accelerations[end]))
            self.entry[end] = float(w[count])
        self._advance(moves, top, count)
        ordered = columns.quotients(moves.length, moves.speed)
        return Timed(count, times[0], times[1], ordered, columns.flows(moves.strand, ordered))

    def _advance(self, moves: Columns, top: Sequence[float], count: int) -> None:
        if count:
            last = count - 1
            self.before = tuple(float(column[last]) for column in (moves.dx, moves.dy, moves.dz, moves.length))
            self.top_before = float(top[last])
            for at, what, value in moves.orders:
                if at < count:
                    self.drives = [_ordered(drive, what, value) for drive in self.drives]

    def _squares(self, count: int, moves: Columns, drive: Drive) -> float | list[float]:
        """The sudden change of speed that a corner may have, squared; a column where the file orders it on the way."""
        orders = [(at, value) for at, what, value in moves.orders if what == "sudden"]
        if not orders:
            return drive.sudden * drive.sudden
        squares: list[float] = []
        begin, sudden = 0, drive.sudden
        for at, value in (*orders, (count, 0.0)):
            squares += [sudden * sudden] * (at - begin)
            begin, sudden = at, value
        return squares

    def _accelerations(self, moves: Columns, end: int) -> Sequence[float]:
        """Of all rows at one end, mm/s2."""
        drive = self.drives[end]
        if not moves.orders:
            return self.columns.accelerations(moves.laid, drive.laying, drive.travelling)  # type: ignore[no-any-return]
        accelerations: list[float] = []
        begin = 0
        for at, what, value in (*moves.orders, (len(moves.length), "", 0.0)):
            part = self.columns.accelerations(moves.laid[begin:at], drive.laying, drive.travelling)
            accelerations += self.columns.as_list(part)
            begin = max(begin, at)
            drive = _ordered(drive, what, value)
        return accelerations


def _ordered(drive: Drive, what: str, value: float) -> Drive:
    """The file's own order narrows both ends to one."""
    if what == "print-acceleration":
        return drive._replace(print=value)
    if what == "acceleration-limit":
        return drive._replace(limit=value)
    if what == "travel-acceleration":
        return drive._replace(travel=value)
    return drive._replace(sudden=value) if what == "sudden" else drive


def _cut(bend: Sequence[float], gains: Sequence[Sequence[float]], most: float) -> int:
    """The last row before which no unknown later corner can matter: the machine stands there, or can have stopped
    since.
    """
    sums = [0.0, 0.0]
    for at in range(len(bend) - 1, -1, -1):
        if bend[at] == 0.0:
            return at
        sums = [held + gain[at] for held, gain in zip(sums, gains, strict=True)]
        if min(sums) >= most:
            return at
    return 0
