"""Simple lines read with numpy: all words of a text at once, with the same result as ``simple_lines``.

Each byte gets a class; bytes that are no digits bound the words. A number is the sum of its digits, each times its
power of ten, over a power of ten: of so few digits that both are exact, so that the quotient is the number that
``float`` reads.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.motion.simple_lines import Stretch, add_stretch, known_place, note_remarks, says_nothing
from profilesmith.motion.state import State

Column = Any  # as in numpy_columns

# Classes of bytes. From _POINT on they bound something; from _X on they are letters of words, in their usual order.
_DIGIT, _MINUS, _POINT, _BLANK, _END, _G, _X, _E, _F = 1, 2, 3, 4, 5, 6, 7, 10, 11
_SIGNS = {**dict.fromkeys(b"0123456789", _DIGIT), **dict(zip(b"-. \nGXYZEF", range(_MINUS, _F + 1), strict=True))}
_CLASSES = bytes(_SIGNS.get(byte, 0) for byte in range(256))
_WHOLE, _BEHIND, _EXACT = 7, 9, 15  # digits before the point, behind it, together
_POWERS = 10.0 ** np.arange(_EXACT + 1)


class _Words(NamedTuple):
    """Words of a text, an index each. line: index of the line; rank: class of the letter; minus: the number has one;
    whole, behind: digits before and behind the point; fits: it is a number that is read here."""

    line: Column
    rank: Column
    minus: Column
    whole: Column
    behind: Column
    fits: Column


class NumpyLines:
    """See ``simple_lines.SimpleLines``."""

    def __init__(self, text: str) -> None:
        self._raw = text.encode("utf-8", "surrogateescape")
        signs = np.frombuffer(self._raw + b"\n\n", dtype=np.uint8)
        classes = np.frombuffer(self._raw.translate(_CLASSES), dtype=np.uint8)
        bounds = np.flatnonzero(classes >= _POINT)
        kinds = classes[bounds]
        self._ends = bounds[kinds == _END]
        self._starts = np.concatenate(([0], self._ends[:-1] + 1))
        words = _words(classes, bounds, kinds)
        self._moving = _plain(signs, classes, bounds, kinds, self._starts, self._ends)
        self._moving &= _in_order(words, len(self._ends))
        self._rapid = signs[self._starts + 1] == ord("0")
        self._columns = self._numbers(signs, classes, words)
        self.odd = [at for at in np.flatnonzero(~self._moving).tolist() if not says_nothing(self.written(at))]

    def __len__(self) -> int:
        return len(self._ends)

    def written(self, at: int) -> str:
        """A line as it stands."""
        return self._raw[self._starts[at] : self._ends[at]].decode("utf-8", "surrogateescape")

    def _numbers(self, signs: Column, classes: Column, words: _Words) -> dict[int, Column]:
        """The numbers of simple lines by letter, one a line; NaN where there is none."""
        used = self._moving[words.line]
        line, rank, minus, whole, behind = (
            column[used] for column in (words.line, words.rank, words.minus, words.whole, words.behind)
        )
        digits = np.repeat(self._moving, self._ends - self._starts + 1)
        digits &= classes == _DIGIT
        digits[self._starts[self._moving] + 1] = False  # of G0 and G1
        values = _values(signs[:-2][digits], whole + behind) / _POWERS[behind]
        values = np.where(minus, -values, values)
        columns = {}
        for letter in range(_X, _F + 1):
            mine = rank == letter
            column = np.full(len(self._ends), np.nan)
            column[line[mine]] = values[mine]
            columns[letter] = column
        return columns

    def take(self, state: State, begin: int, end: int, first_line: int) -> bool:
        """See ``simple_lines.SimpleLines.take``."""
        moves = np.flatnonzero(self._moving[begin:end]) + begin
        if len(moves):
            stretch = self._stretch(state, moves, first_line)
            if stretch is None:
                return False
            add_stretch(state, stretch)
        if len(moves) < end - begin:
            others = np.flatnonzero(~self._moving[begin:end]) + begin
            before = np.searchsorted(moves, others).tolist()
            remarks = [
                (rows, self.written(at)[1:].strip(), first_line + at)
                for rows, at in zip(before, others.tolist(), strict=True)
            ]
            note_remarks(state, remarks, len(moves))
        return True

    def _stretch(self, state: State, moves: Column, first_line: int) -> Stretch | None:
        feeds = self._columns[_F][moves]
        if (feeds <= 0.0).any():
            return None
        speed = _filled(feeds / 60.0 * state.speed_factor, state.speed_mm_s())
        x, y, z = (
            _filled(self._columns[axis][moves], start).tolist() for axis, start in enumerate(known_place(state), _X)
        )
        fed, strand = self._fed(state, moves)
        written = feeds[~np.isnan(feeds)]
        rapid = self._rapid[moves]
        if not state.rapid_told and rapid.any():
            state.rapid_seen = True
            state.rapid_told = not np.isnan(feeds[rapid]).all()
        feed = float(written[-1]) if len(written) else None
        motion = "G0" if rapid[-1] else "G1"
        return Stretch(x, y, z, fed, speed.tolist(), (moves + first_line).tolist(), strand, feed, motion)

    def _fed(self, state: State, moves: Column) -> tuple[list[float], float]:
        """See ``simple_lines``."""
        written = self._columns[_E][moves]
        strand = state.strand
        if state.strand_absolute:
            spots = _filled(written, strand)
            fed = np.diff(spots, prepend=strand)
            strand = float(spots[-1])
        else:
            fed = np.where(np.isnan(written), 0.0, written)
        scale = state.strand_scale()
        return (fed if scale == 1.0 else fed * scale).tolist(), strand


def _words(classes: Column, bounds: Column, kinds: Column) -> _Words:
    place = np.flatnonzero(kinds >= _X)
    at = bounds[place]
    next_bound = bounds[place + 1]
    dotted = kinds[place + 1] == _POINT
    behind = place + 1 + dotted
    minus = classes[at + 1] == _MINUS
    whole = next_bound - at - 1 - minus
    part = np.where(dotted, bounds[behind] - next_bound - 1, 0)
    fits = (whole <= _WHOLE) & (part <= _BEHIND) & (whole + part >= 1) & (whole + part <= _EXACT)
    fits &= (kinds[behind] == _BLANK) | (kinds[behind] == _END)
    return _Words(np.cumsum(kinds == _END)[place], kinds[place], minus, whole, part, fits)


def _plain(signs: Column, classes: Column, bounds: Column, kinds: Column, starts: Column, ends: Column) -> Column:
    """Lines that begin with ``G0 `` or ``G1 `` and are words after single blanks. Numbers are not looked at."""
    plain = (signs[starts] == ord("G")) & ((signs[starts + 1] | 1) == ord("1")) & (signs[starts + 2] == ord(" "))
    before = np.concatenate(([_END], kinds[:-1]))
    near = np.diff(bounds, prepend=-1) == 1
    behind_blank = (before == _BLANK) & near
    wrong = (kinds >= _X) != behind_blank
    wrong |= (before == _BLANK) & ~near
    wrong |= (kinds == _G) & ~(near & (before == _END))
    minus = np.flatnonzero(classes == _MINUS)
    stray = minus[classes[minus - 1] < _X]
    for spots in (bounds[wrong], np.flatnonzero(classes == 0), stray):
        plain[np.searchsorted(ends, spots)] = False
    return plain


def _in_order(words: _Words, count: int) -> Column:
    """Lines with an axis or E, in the usual order, each letter once: F before or behind all others."""
    line, rank = words.line, words.rank
    orderly = np.zeros(count, dtype=bool)
    orderly[line[rank < _F]] = True
    first = np.diff(line, prepend=-1) > 0
    feed = rank == _F
    leading, trailing = first & feed, feed & ~first
    order = np.where(leading, 0, rank)
    orderly[line[1:][~first[1:] & (order[1:] <= order[:-1])]] = False
    orderly[line[~words.fits]] = False
    led = np.zeros(count, dtype=bool)
    led[line[leading]] = True
    last = line[trailing]
    orderly[last[led[last]]] = False
    return orderly


def _values(digits: Column, counts: Column) -> Column:
    """Whole numbers of their digits. counts: how many each has."""
    ends = np.cumsum(counts)
    places = np.repeat(ends, counts) - np.arange(1, len(digits) + 1)
    return np.add.reduceat((digits - ord("0")) * _POWERS[places], ends - counts) if len(counts) else np.empty(0)


def _filled(column: Column, start: float) -> Column:
    """NaN becomes the value before."""
    known = ~np.isnan(column)
    if known.all():
        return column
    last = np.maximum.accumulate(np.where(known, np.arange(1, len(column) + 1), 0))
    return np.concatenate(([start], column))[last]
