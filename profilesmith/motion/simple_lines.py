"""The many lines that hold a G0 or G1 and plain X, Y, Z, E, F in the usual order, read many at a time.

This is a short cut: what it cannot read exactly as ``run_block`` would, it hands back. ``numpy_lines`` does the same.
"""

import re
from collections.abc import Sequence
from itertools import compress
from operator import itemgetter, sub
from typing import Protocol

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.motion.rows import Event
from profilesmith.motion.state import State

# Longer ones are looked at one by one.
_NUMBER = r"(-?+(?:[0-9]{1,7}+(?:\.[0-9]{0,9}+)?+|\.[0-9]{1,9}+))"
# G0 or G1; F before or behind the axes; the rest of the line where it is anything else. Nothing of it is tried twice.
LINE = re.compile(
    r"G([01])(?! F[^ \n]*+\n|\n)"
    + "".join(rf"(?: {letter}{_NUMBER})?+" for letter in "FXYZE")
    + rf"(?(2)|(?: F{_NUMBER})?+)\n"
    r"|([^\n]*+)\n",
    re.ASCII,
)
_ODD = 7
_NAMES = (("F", 1), ("X", 2), ("Y", 3), ("Z", 4), ("E", 5), ("F", 6))
Found = tuple[str, str, str, str, str, str, str, str]


class Stretch(NamedTuple):
    """What some simple lines order, a value for each. x, y, z: as written; fed: mm of filament; speed: mm/s;
    strand: where E stands at the end; feed: the last F, None where there is none; motion: the last."""

    x: list[float]
    y: list[float]
    z: list[float]
    fed: list[float]
    speed: list[float]
    lines: Sequence[int]
    strand: float
    feed: float | None
    motion: str


class Lines(Protocol):
    """The lines of a text. odd: indices of those that have to be read word by word."""

    odd: list[int]

    def __len__(self) -> int: ...

    def written(self, at: int) -> str: ...

    def take(self, state: State, begin: int, end: int, first_line: int) -> bool: ...


class SimpleLines:
    """The lines of a text, each ended by ``\\n``. odd: indices of those that have to be read word by word."""

    def __init__(self, text: str) -> None:
        self._found: list[Found] = LINE.findall(text)
        self.odd = [at for at, texts in enumerate(self._found) if not texts[0] and not says_nothing(texts[_ODD])]

    def __len__(self) -> int:
        return len(self._found)

    def written(self, at: int) -> str:
        """A line, with the same words as in the file."""
        texts = self._found[at]
        if not texts[0]:
            return texts[_ODD]
        return f"G{texts[0]} " + " ".join(letter + texts[place] for letter, place in _NAMES if texts[place])

    def take(self, state: State, begin: int, end: int, first_line: int) -> bool:
        """Add a stretch of lines that are not odd to the rows. False: it holds something that has to be read word by
        word.
        first_line: number of the text's first line."""
        words = self._found[begin:end]
        numbers: Sequence[int] = range(first_line + begin, first_line + end)
        moving = list(map(itemgetter(0), words))
        remarks: list[tuple[int, str, int]] = []
        if "" in moving:
            remarks = _remarks(words, numbers)
            words, numbers = list(compress(words, moving)), list(compress(numbers, moving))
        if words:
            stretch = _stretch(state, words, numbers)
            if stretch is None:
                return False
            add_stretch(state, stretch)
        note_remarks(state, remarks, len(words))
        return True


def says_nothing(text: str) -> bool:
    """A line that holds a remark or nothing, so that no mode changes."""
    return not text or text[0] == ";"


def _remarks(words: list[Found], numbers: Sequence[int]) -> list[tuple[int, str, int]]:
    """Remarks of a stretch: how many moves come before, what is said, the line."""
    remarks, moves = [], 0
    for texts, line in zip(words, numbers, strict=True):
        if texts[0]:
            moves += 1
        else:
            remarks.append((moves, texts[_ODD][1:].strip(), line))
    return remarks


def note_remarks(state: State, remarks: list[tuple[int, str, int]], moves: int) -> None:
    """Kinds of line that are told between the moves that were added last. moves: how many those are."""
    base = len(state.rows) - moves
    for before, remark, line in remarks:
        kind = state.practice.lines.get(remark)
        if kind is not None:
            state.kind = kind
            state.rows.events.append(Event(base + before, "kind", kind, line))


def ready(state: State) -> bool:
    """The modes are the usual ones, so that simple lines mean what they seem to."""
    return (
        state.absolute is True
        and state.scale == 1.0
        and state.feed is not None
        and not state.inverse_time
        and not state.ended
        and not state.jump
        and not state.machine_frame
        and state.strand_absolute is not None
        and state.pending_reset is None
        and None not in state.at
    )


def known_place(state: State) -> tuple[float, float, float]:
    """Where the nozzle is, in the numbers of the file. ``ready`` has seen to it that it is known."""
    x, y, z = state.at
    assert x is not None
    assert y is not None
    assert z is not None
    return x, y, z


def _stretch(state: State, words: list[Found], numbers: Sequence[int]) -> Stretch | None:
    motions, feeds_before, xs, ys, zs, strands, feeds, _ = zip(*words, strict=True)
    speeds = _speeds(state, feeds_before, feeds)
    if speeds is None:
        return None
    x, y, z = known_place(state)
    column_x = [x := float(text) if text else x for text in xs]
    column_y = [y := float(text) if text else y for text in ys]
    column_z = [z := float(text) if text else z for text in zs] if any(zs) else [z] * len(zs)
    fed, strand = _fed(state, strands)
    _count_rapids(state, motions, feeds_before, feeds)
    column, feed = speeds
    return Stretch(column_x, column_y, column_z, fed, column, numbers, strand, feed, f"G{motions[-1]}")


def _speeds(state: State, before: Sequence[str], behind: Sequence[str]) -> tuple[list[float], float | None] | None:
    """Speeds in mm/s, and the last F; None where an F is no speed."""
    factor, speed = state.speed_factor, state.speed_mm_s()
    if not (any(before) or any(behind)):
        return [speed] * len(before), None
    texts = [one or other for one, other in zip(before, behind, strict=True)]
    column = [speed := float(text) / 60.0 * factor if text else speed for text in texts]
    last = float(next(filter(None, reversed(texts))))
    return (column, last) if min(column) > 0 else None


def _fed(state: State, texts: Sequence[str]) -> tuple[list[float], float]:
    """Filament fed by each line, mm, and where E stands at the end."""
    strand = state.strand
    if state.strand_absolute:
        spots = [strand]
        spots += [strand := float(text) if text else strand for text in texts]
        fed = list(map(sub, spots[1:], spots))
    else:
        fed = [float(text) if text else 0.0 for text in texts]
    scale = state.strand_scale()
    return (fed if scale == 1.0 else [amount * scale for amount in fed]), strand


def _count_rapids(state: State, motions: Sequence[str], before: Sequence[str], behind: Sequence[str]) -> None:
    """Whether G0 comes with an F of its own, anywhere: once is enough."""
    if state.rapid_told or "0" not in motions:
        return
    state.rapid_seen = True
    texts = zip(motions, before, behind, strict=True)
    state.rapid_told = any(motion == "0" and (one or other) for motion, one, other in texts)


def add_stretch(state: State, stretch: Stretch) -> None:
    """Add its moves to the rows, and leave the state as it is after them."""
    rows = state.rows
    columns = (stretch.x, stretch.y, stretch.z)
    for held, column, shift in zip((rows.x, rows.y, rows.z), columns, state.shift, strict=True):
        held.extend([value + shift for value in column] if shift else column)
    if state.own_lift:
        begin = len(rows.z) - len(stretch.z)
        rows.z[begin:] = [value + state.own_lift for value in rows.z[begin:]]
    rows.strand.extend(stretch.fed)
    rows.speed.extend(stretch.speed)
    rows.line.extend(stretch.lines)
    state.at = [stretch.x[-1], stretch.y[-1], stretch.z[-1]]
    state.strand, state.motion = stretch.strand, stretch.motion
    if stretch.feed is not None:
        state.feed = stretch.feed
