"""Bytes -> rows: the one way into the room. Hands out the state after each piece; who takes rows, drops them."""

from collections.abc import Callable, Iterable, Iterator

from profilesmith.motion.block import read_block
from profilesmith.motion.doubt import Doubts
from profilesmith.motion.lines import pieces
from profilesmith.motion.practice import Practice
from profilesmith.motion.run_block import run_block
from profilesmith.motion.simple_lines import Lines, SimpleLines, ready
from profilesmith.motion.state import State


def read_motion(
    portions: Iterable[bytes],
    practice: Practice = Practice(),
    short_cut: bool = True,
    read_lines: Callable[[str], Lines] = SimpleLines,
) -> Iterator[State]:
    """Carry out a file, piece by piece. The same state is handed out each time, with the new rows added to it.

    short_cut: read simple lines many at a time; the result is the same without. read_lines: the reader of those. Raises
    ``LineTooLong``.
    """
    state = State(practice, Doubts())
    line = 1
    for text in pieces(portions):
        lines = read_lines(text if text.endswith("\n") else text + "\n")
        _piece(state, lines, line, short_cut)
        line += len(lines)
        yield state
    state.line = line
    _last_doubts(state)


def _piece(state: State, lines: Lines, first_line: int, short_cut: bool) -> None:
    begin = 0
    for at in (*lines.odd, len(lines)):
        if at > begin:
            _simple(state, lines, (begin, at), first_line, short_cut)
        if at < len(lines):
            run_block(state, read_block(lines.written(at), first_line + at))
        begin = at + 1


def _simple(state: State, lines: Lines, span: tuple[int, int], first_line: int, short_cut: bool) -> None:
    begin, end = span
    try_it = short_cut
    for at in range(begin, end):
        if try_it and ready(state):
            if lines.take(state, at, end, first_line):
                return
            try_it = False  # once is enough: what is odd in it stays so
        run_block(state, read_block(lines.written(at), first_line + at))


def _last_doubts(state: State) -> None:
    """What only the whole file tells: whether G0 goes at a speed that is known."""
    at_feed = state.practice.rapid_at_feed
    if state.rapid_seen and not (state.rapid_told if at_feed is None else at_feed):
        state.doubt("rapid", "G0", "travel", "time")
