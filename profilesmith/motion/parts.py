"""The parts of a piece: rows between two changes, with their sums and maxima worked out column by column."""

from collections.abc import Sequence
from types import ModuleType
from typing import NamedTuple

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
    """places: where each part begins, and the end of the last. length, strand (mm), quick, slow (s): sums of each part;
    speed (mm/s), flow (mm of filament a second), slope: the largest of each. dx, dy, lengths, quicks, slows, flows: of
    rows."""

    def __init__(self, rows: Rows, moves: Moves, timed: Timed, places: list[int], columns: ModuleType) -> None:
        self.rows, self.places, self.laid, self._columns = rows, places, moves.laid, columns
        self._mask, self._count = columns.as_mask(moves.laid), timed.rows
        self.length, self.strand, self.quick, self.slow = (
            columns.part_sums(column, places) for column in (moves.length, moves.strand, timed.quick, timed.slow)
        )
        self.speed, self.flow = (columns.part_maxima(column, places) for column in (moves.speed, timed.flow))
        self.slope = columns.part_slopes(moves.dz, places)
        self.dx, self.dy, self.lengths, self.quicks, self.slows, self.flows = map(
            columns.as_list, (moves.dx, moves.dy, moves.length, timed.quick, timed.slow, timed.flow)
        )

    def laid_only(self, column: Sequence[float]) -> list[float]:
        """A column of the counted rows; 0 where nothing is laid."""
        found: list[float] = self._columns.as_list(self._columns.masked(column, self._mask))
        return found[: self._count]
