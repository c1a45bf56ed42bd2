"""Bytes -> rows: the one way into the room. Hands out the state after each piece; who takes rows, drops them."""

from collections.abc import Iterable, Iterator

from profilesmith.motion import simple_lines
from profilesmith.motion.block import read_block
from profilesmith.motion.doubt import Doubts
from profilesmith.motion.lines import pieces
from profilesmith.motion.practice import Practice
from profilesmith.motion.run_block import run_block
from profilesmith.motion.state import State


def read_motion(portions: Iterable[bytes], practice: Practice = Practice(), short_cut: bool = True) -> Iterator[State]:
    """Carry out a file, piece by piece. The same state is handed out each time, with the new rows added to it.

    short_cut: read simple lines many at a time; the result is the same without. Raises ``LineTooLong``.
    """
    state = State(practice, Doubts())
    line = 1
    for text in pieces(portions):
        line = _piece(state, text if text.endswith("\n") else text + "\n", line, short_cut)
        yield state
    state.line = line
    _last_doubts(state)


def _piece(state: State, text: str, line: int, short_cut: bool) -> int:
    found = simple_lines.LINE.findall(text)
    odd = [at for at, texts in enumerate(found) if not texts[0]]
    begin = 0
    for at in (*odd, len(found)):
        if at > begin:
            _simple(state, found[begin:at], line + begin, short_cut)
        if at < len(found):
            run_block(state, read_block(found[at][7], line + at))
        begin = at + 1
    return line + len(found)


def _simple(state: State, found: list[simple_lines.Found], line: int, short_cut: bool) -> None:
    begin, try_it = 0, short_cut
    while begin < len(found):
        if try_it and simple_lines.ready(state):
            if simple_lines.take(state, found[begin:], line + begin):
                return
            try_it = False  # once is enough: what is odd in it stays so
        run_block(state, read_block(_as_written(found[begin]), line + begin))
        begin += 1


def _as_written(texts: simple_lines.Found) -> str:
    motion, before, x, y, z, strand, behind, _ = texts
    named = (("F", before), ("X", x), ("Y", y), ("Z", z), ("E", strand), ("F", behind))
    return f"G{motion} " + " ".join(letter + text for letter, text in named if text)


def _last_doubts(state: State) -> None:
    """What only the whole file tells: whether G0 goes at a speed that is known."""
    at_feed = state.practice.rapid_at_feed
    if state.rapid_seen and not (state.rapid_told if at_feed is None else at_feed):
        state.doubt("rapid", "G0", "travel", "time")
