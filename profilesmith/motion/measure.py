"""Rows -> figures, piece by piece. Memory does not grow with the file, but with its layers and kinds of line."""

import gc
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from itertools import compress
from operator import not_
from types import ModuleType

from profilesmith.motion import plain_columns
from profilesmith.motion.clock import Clock, Columns, Pace
from profilesmith.motion.figures import Figures
from profilesmith.motion.parts import Moves
from profilesmith.motion.practice import Practice
from profilesmith.motion.read_motion import read_motion
from profilesmith.motion.rows import Rows
from profilesmith.motion.state import State
from profilesmith.motion.tally import FigureTally

_STOPS = frozenset({"dwell", "dwell-p", "stop", "person", "wait", "heating", "home"})
_ORDERS = frozenset({"print-acceleration", "travel-acceleration", "acceleration-limit", "sudden"})


def measure(
    portions: Iterable[bytes],
    practice: Practice = Practice(),
    pace: Pace = Pace(),
    columns: ModuleType = plain_columns,
    short_cut: bool = True,
) -> Figures:
    """All figures of a motion file, given as bytes in portions of any size. columns: ``plain_columns`` or its numpy
    twin.

    Raises ``LineTooLong`` for what is no text of lines.
    """
    clock, tally = Clock(pace, columns), FigureTally(practice, columns)
    state: State | None = None
    with _no_search_for_cycles():
        for state in read_motion(portions, practice, short_cut, columns.read_lines):
            take_rows(state.rows, clock, tally, final=False)
        if state is None:
            state = State(practice, tally.no_doubts())
        take_rows(state.rows, clock, tally, final=True)
        return tally.figures(state)


@contextmanager
def _no_search_for_cycles() -> Iterator[None]:
    """Numbers and texts by the million hold no cycles: to search them for some takes a sixth of the time."""
    searching = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if searching:
            gc.enable()


def take_rows(rows: Rows, clock: Clock, tally: FigureTally, final: bool) -> None:
    """Count all rows whose time is certain, and drop them."""
    if not len(rows):
        if final:
            tally.finish(rows)
        return
    columns = clock.columns
    dx, dy, dz = (
        columns.offsets(column, first) for column, first in zip((rows.x, rows.y, rows.z), rows.first, strict=True)
    )
    for at in rows.jumps:
        dx[at] = dy[at] = dz[at] = 0.0
    length = columns.lengths(dx, dy, dz)
    plain = columns.as_list(length)
    if 0.0 in plain and _without_idle(rows, plain):
        take_rows(rows, clock, tally, final)
        return
    speed, strand = columns.as_column(rows.speed), columns.as_column(rows.strand)
    laid = columns.laid(length, strand)
    stops = [event.at for event in rows.events if event.kind in _STOPS]
    orders = [(event.at, event.kind, float(event.value)) for event in rows.events if event.kind in _ORDERS]
    timed = clock.time(Columns(dx, dy, dz, length, speed, strand, laid, stops, orders), final)
    tally.take(rows, Moves(dx, dy, dz, length, strand, speed, columns.as_list(laid)), timed)
    rows.drop(timed.rows)
    if final:
        tally.finish(rows)


def _without_idle(rows: Rows, length: list[float]) -> bool:
    """Take out rows that neither move nor feed: they would look like a stop. True when there were any."""
    still = compress(range(len(length)), map(not_, length))
    jumps = set(rows.jumps)
    idle = [at for at in still if rows.strand[at] == 0.0 and at not in jumps]
    for at in reversed(idle):
        rows.remove(at)
    return bool(idle)
