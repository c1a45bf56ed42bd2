"""Arithmetic on columns in pure Python. ``numpy_columns`` does the same; results agree to eleven digits and more.

Look-ahead: with w = v^2 the speed at a corner is bounded by ``w <= corner``, and from corner to corner w can change by
at most 2 a d, the gain. With s the running sum of gains, both passes are running minima: of ``corner - s`` from the
front and of ``corner + s`` from the back. Own derivation; held against a fine phase-plane integration in the tests.
"""

from collections.abc import Sequence
from itertools import compress, pairwise, repeat
from math import sqrt
from operator import add, mul, sub, truediv

from profilesmith.motion.simple_lines import SimpleLines

read_lines = SimpleLines
STRAIGHT = 1e-15  # 1 - cos of a corner that is none
_STRAIGHT_ON = 0.5 / STRAIGHT


def offsets(column: Sequence[float], first: float) -> list[float]:
    """How far each row goes along one axis."""
    return list(map(sub, column, [first, *column[:-1]]))


def lengths(dx: Sequence[float], dy: Sequence[float], dz: Sequence[float]) -> list[float]:
    lengths = list(map(sqrt, [x * x + y * y for x, y in zip(dx, dy, strict=True)]))
    for at in compress(range(len(dz)), dz):
        lengths[at] = sqrt(dx[at] * dx[at] + dy[at] * dy[at] + dz[at] * dz[at])
    return lengths


def squares(speeds: Sequence[float]) -> list[float]:
    return list(map(mul, speeds, speeds))


def bends(
    dx: Sequence[float], dy: Sequence[float], dz: Sequence[float], length: Sequence[float], before: Sequence[float]
) -> list[float]:
    """For the corner at the start of each row: ``1 / (2 (1 - cos))``; 0 where a row has no length. before: the row
    before the first: its three offsets and its length."""
    x0, y0, z0, d0 = before
    bends = []
    for x1, y1, z1, d1 in zip(dx, dy, dz, length, strict=True):
        both = d0 * d1
        if both:
            turn = 1.0 - (x0 * x1 + y0 * y1 + z0 * z1) / both
            bends.append(0.5 / turn if turn > STRAIGHT else _STRAIGHT_ON)
        else:
            bends.append(0.0)
        x0, y0, z0, d0 = x1, y1, z1, d1
    return bends


def neighbours(top: Sequence[float], before: float) -> list[float]:
    """The lower of each row's own limit and of that of the row before."""
    return [one if one < other else other for one, other in zip([before, *top[:-1]], top, strict=True)]


def look_ahead(
    bend: Sequence[float],
    square: float | list[float],
    limits: Sequence[float],
    gain: Sequence[float],
    entry: float,
) -> list[float]:
    """v^2 at the start of each row, and 0 at the end of the last. square: of the sudden change of speed that a corner
    may have, one number or a column; limits: both rows' own; gain: 2 a d of each row; entry: v^2 at the first start.

    The running minima as the steps that they are, which plain Python takes more quickly than sums and minima of
    columns.
    """
    squares_back = repeat(square) if isinstance(square, float) else reversed(square)
    low = 0.0
    back = [
        low if (low := low + step) < (cap := own if (own := one * sudden) < limit else limit) else (low := cap)
        for one, sudden, limit, step in zip(bend[:0:-1], squares_back, limits[:0:-1], gain[:0:-1], strict=False)
    ]
    back.reverse()
    low = entry
    squares = [entry]
    squares += [low if (low := low + step) < cap else (low := cap) for cap, step in zip(back, gain, strict=False)]
    squares.append(0.0)
    return squares


def times(
    w: Sequence[float],
    speed: Sequence[float],
    square: Sequence[float],
    gain: Sequence[float],
    acceleration: Sequence[float],
) -> list[float]:
    """Seconds of each row, as ``physics.moves.move_time_s``; 0 for rows without length. speed: as ordered, mm/s;
    square: of that."""
    ends = list(map(sqrt, w))
    both = map(add, ends, ends[1:])
    rows = zip(w, w[1:], gain, square, both, speed, acceleration, strict=False)
    return [
        ((fast := sqrt(peak)) + fast - slow) / a
        if (peak := (w0 + w1 + more) * 0.5) <= vv
        else (v + v - slow + (peak - vv) / v) / a
        for w0, w1, more, vv, slow, v, a in rows
    ]


def largest(column: Sequence[float]) -> float:
    return max(column)


def gains(length: Sequence[float], acceleration: Sequence[float]) -> list[float]:
    """How much v^2 can change over each row: 2 a d."""
    return [(d + d) * a for d, a in zip(length, acceleration, strict=True)]


def laid(length: Sequence[float], strand: Sequence[float]) -> list[bool]:
    """Rows that lay material: they move, and filament is fed."""
    return [d > 0.0 and e > 0.0 for d, e in zip(length, strand, strict=True)]


def quotients(one: Sequence[float], other: Sequence[float]) -> list[float]:
    return list(map(truediv, one, other))


def flows(strand: Sequence[float], seconds: Sequence[float]) -> list[float]:
    """Filament fed in mm/s; 0 for rows without length."""
    return [e / t if t else 0.0 for e, t in zip(strand, seconds, strict=True)]


def as_list(column: list[float]) -> list[float]:
    """A column as a plain list."""
    return column


def as_column(values: list[float]) -> list[float]:
    """A plain list as a column."""
    return values


def accelerations(laid: Sequence[bool], laying: float, travelling: float) -> list[float]:
    """One of two for each row."""
    if laying == travelling:
        return [laying] * len(laid)
    return [laying if one else travelling for one in laid]


def part_sums(column: Sequence[float], places: Sequence[int], asked: Sequence[bool]) -> list[float]:
    """The sum of each part, from place to place; anything where it is not asked for."""
    return [sum(column[begin:end]) if one else 0.0 for (begin, end), one in zip(pairwise(places), asked, strict=True)]


def part_maxima(column: Sequence[float], places: Sequence[int], asked: Sequence[bool]) -> list[float]:
    """The largest value of each part; anything where it is not asked for."""
    return [max(column[begin:end]) if one else 0.0 for (begin, end), one in zip(pairwise(places), asked, strict=True)]


def part_slopes(column: Sequence[float], places: Sequence[int], asked: Sequence[bool]) -> list[bool]:
    """Whether any value of each part is not 0; anything where it is not asked for."""
    return [one and any(column[begin:end]) for (begin, end), one in zip(pairwise(places), asked, strict=True)]
