"""The modal state of a machine: what words of earlier lines still mean for the next one."""

from profilesmith.motion.doubt import Doubts, Subject
from profilesmith.motion.practice import Practice
from profilesmith.motion.rows import Rows

AXES = ("X", "Y", "Z")
INCH = 25.4
Spot = tuple[float | None, float | None, float | None]


class State:
    """Changed line by line. Lengths in mm, in the numbers of the file's own coordinates; ``shift`` added gives the
    frame that the file started in (G92, G54 and others move it)."""

    def __init__(self, practice: Practice, doubts: Doubts) -> None:
        self.practice, self.doubts = practice, doubts
        self.rows = Rows()
        self.motion: str | None = "G1"
        self.plane = "G17"
        self.absolute = practice.absolute
        self.strand_absolute = practice.strand_absolute
        self.arc_absolute = False
        self.scale = 1.0
        self.inverse_time = False
        self.feed: float | None = None  # units a minute as written, in mm
        self.speed_factor = 1.0
        self.strand_factor = 1.0
        self.strand_area: float | None = None  # E counts volume, over this section in mm2
        self.at: list[float | None] = [None, None, None]
        self.shift = [0.0, 0.0, 0.0]
        self.offset = [0.0, 0.0, 0.0]  # of G92
        self.kept_offset = [0.0, 0.0, 0.0]
        self.system = "G54"
        self.systems: dict[str, list[float]] = {"G54": [0.0, 0.0, 0.0]}
        self.strand = 0.0
        self.pull: tuple[float, float, float] | None = None  # M207: length mm, speed mm/s, lift mm
        self.unpull: tuple[float, float] | None = None  # M208: more length mm, speed mm/s
        self.pulled = False
        self.own_lift = 0.0  # of G10, which the file's coordinates do not know
        self.pending_reset: tuple[str, int] | None = None  # G90 or G91 after M82 or M83, and no E since
        self.jump = False  # the next row begins where nobody knows
        self.machine_frame = False  # G53: this line is in the machine's coordinates
        self.tool = 0
        self.kind = ""
        self.ended = 0  # the line of M2, M30 or the closing %
        self.line = 0
        self.seen: dict[str, int] = {}  # code -> how often
        self.rapid_seen = self.rapid_told = False  # a G0 at all, and one with an F of its own

    def doubt(self, code: str, word: str, *subjects: Subject) -> None:
        """Doubt these subjects, or everything, from this line on."""
        if subjects:
            self.doubts.add(code, word, self.line, subjects)
        else:
            self.doubts.add(code, word, self.line)

    @property
    def known(self) -> bool:
        return None not in self.at

    def true_spot(self) -> tuple[float, float, float]:
        """Where the nozzle is, unknown axes as 0."""
        x, y, z = self.at
        shift = self.shift
        return (
            0.0 if x is None else x + shift[0],
            0.0 if y is None else y + shift[1],
            0.0 if z is None else z + shift[2],
        )

    def speed_mm_s(self) -> float:
        """The ordered speed. Without any F a doubt is raised and a placeholder stands in, which nothing may trust."""
        if self.feed is None:
            self.doubt("no-feed", "F", "speed", "travel", "time")
            return 10.0
        return self.feed / 60.0 * self.speed_factor

    def strand_scale(self) -> float:
        """Millimetres of filament for one unit of E in mm."""
        scale = self.strand_factor
        return scale if self.strand_area is None else scale / self.strand_area
