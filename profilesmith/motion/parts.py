"""The parts of a piece: rows between two changes, with their sums and maxima worked out column by column."""

from collections.abc import Sequence
from types import ModuleType

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.motion.clock import Timed
from profilesmith.motion.rows import Rows


class Moves(NamedTuple):
    """Columns of all rows; laid as a plain list."""

    dx: Sequence[float]
    dy: Sequence[float]
    dz: Sequence[float]
    length: Sequence[float]
    strand: Sequence[float]
    speed: Sequence[float]
    laid: list[bool]


class Parts:
    """places: where each part begins, and the end of the last. quick, slow (s): sums of each part; length, strand (mm):
    of those that are laid; speed (mm/s): the largest of each; flow (mm of filament a second), slope: of those that are
    laid. dx, dy, lengths, flows: of rows.
    """

    def __init__(self, rows: Rows, moves: Moves, timed: Timed, places: list[int], columns: ModuleType) -> None:
        self.rows, self.places, self.laid = rows, places, moves.laid
        lays = [moves.laid[at] for at in places[:-1]]
        every = [True] * len(lays)
        self.length, self.strand = (columns.part_sums(column, places, lays) for column in (moves.length, moves.strand))
        self.quick, self.slow = (columns.part_sums(column, places, every) for column in (timed.quick, timed.slow))
        self.speed = columns.part_maxima(moves.speed, places, every)
        self.flow = columns.part_maxima(timed.flow, places, lays)
        self.slope = columns.part_slopes(moves.dz, places, lays)
        self.dx, self.dy, self.lengths, self.flows = map(
            columns.as_list, (moves.dx, moves.dy, moves.length, timed.flow)
        )
