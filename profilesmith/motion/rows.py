"""Rows of moves in columns, and the events between them. Whole columns are worked on at once: that is what makes it
quick.
"""

from profilesmith.foundation.named_tuple import NamedTuple


class Event(NamedTuple):
    """What happens before row ``at``. kind: ``kind``, ``fan``, ``nozzle``, ``bed``, ``chamber``, ``pace``, ``wait`` ...

    value: a number or a word, by kind; line: where it stands.
    """

    at: int
    kind: str
    value: float | str
    line: int


class Rows:
    """Straight moves, one an index. Positions in mm in the frame that the file starts in.

    strand: filament fed, mm (below zero: pulled back); speed: mm/s as ordered; jumps: rows whose start is not known, so
    that their length counts as nothing. first: where the first row starts.
    """

    __slots__ = ("events", "first", "jumps", "line", "speed", "strand", "x", "y", "z")

    def __init__(self, first: tuple[float, float, float] = (0.0, 0.0, 0.0)) -> None:
        self.line: list[int] = []
        self.x: list[float] = []
        self.y: list[float] = []
        self.z: list[float] = []
        self.strand: list[float] = []
        self.speed: list[float] = []
        self.jumps: list[int] = []
        self.events: list[Event] = []
        self.first = first

    def __len__(self) -> int:
        return len(self.x)

    def add(self, line: int, spot: tuple[float, float, float], strand: float, speed: float) -> None:
        self.line.append(line)
        self.x.append(spot[0])
        self.y.append(spot[1])
        self.z.append(spot[2])
        self.strand.append(strand)
        self.speed.append(speed)

    def note(self, kind: str, value: float | str, line: int) -> None:
        self.events.append(Event(len(self.x), kind, value, line))

    def remove(self, at: int) -> None:
        """Take one row out."""
        for column in (self.line, self.x, self.y, self.z, self.strand, self.speed):
            del column[at]
        self.jumps = [jump - (jump > at) for jump in self.jumps if jump != at]
        self.events = [event._replace(at=event.at - (event.at > at)) for event in self.events]

    def drop(self, count: int) -> None:
        """Forget the first rows; what is left goes on where they ended."""
        if not count:
            return
        self.first = (self.x[count - 1], self.y[count - 1], self.z[count - 1])
        for column in (self.line, self.x, self.y, self.z, self.strand, self.speed):
            del column[:count]
        self.jumps = [at - count for at in self.jumps if at >= count]
        self.events = [event._replace(at=event.at - count) for event in self.events if event.at >= count]
