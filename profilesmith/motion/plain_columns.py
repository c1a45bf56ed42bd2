"""Arithmetic on columns in pure Python. ``numpy_columns`` does the same; results agree to eleven digits and more.

Look-ahead: with w = v^2 the speed at a corner is bounded by ``w <= corner``, and from corner to corner w can change by
at most 2 a d, the gain. With s the running sum of gains, both passes are running minima: of ``corner - s`` from the
front and of ``corner + s`` from the back. Own derivation; held against a fine phase-plane integration in the tests.
"""

from collections.abc import Sequence
from itertools import pairwise
from math import sqrt
from operator import mul, sub, truediv

from profilesmith.motion.simple_lines import SimpleLines

read_lines = SimpleLines
STRAIGHT = 1e-15  # 1 - cos of a corner that is none
_STRAIGHT_ON = 0.5 / STRAIGHT


def offsets(column: Sequence[float], first: float) -> list[float]:
    """How far each row goes along one axis."""
    return list(map(sub, column, [first, *column[:-1]]))


def lengths(dx: Sequence[float], dy: Sequence[float], dz: Sequence[float]) -> list[float]:
    if not any(dz):
        return list(map(sqrt, [x * x + y * y for x, y in zip(dx, dy, strict=True)]))
    return list(map(sqrt, [x * x + y * y + z * z for x, y, z in zip(dx, dy, dz, strict=True)]))


def squares(speeds: Sequence[float]) -> list[float]:
    return list(map(mul, speeds, speeds))


def bends(
    dx: Sequence[float], dy: Sequence[float], dz: Sequence[float], length: Sequence[float], before: Sequence[float]
) -> list[float]:
    """For the corner at the start of each row: ``1 / (2 (1 - cos))``; 0 where a row has no length. before: the row
    before the first: its three offsets and its length."""
    x0, y0, z0, d0 = ([value, *column[:-1]] for value, column in zip(before, (dx, dy, dz, length), strict=True))
    both = map(mul, d0, length)
    if not (before[2] or any(dz)):
        rows = zip(x0, dx, y0, dy, both, strict=True)
        products = [(x * x1 + y * y1) / ds if ds else None for x, x1, y, y1, ds in rows]
    else:
        solid = zip(x0, dx, y0, dy, z0, dz, both, strict=True)
        products = [(x * x1 + y * y1 + z * z1) / ds if ds else None for x, x1, y, y1, z, z1, ds in solid]
    return [
        (0.5 / turn if (turn := 1.0 - cosine) > STRAIGHT else _STRAIGHT_ON) if cosine is not None else 0.0
        for cosine in products
    ]


def neighbours(top: Sequence[float], before: float) -> list[float]:
    """The lower of each row's own limit and of that of the row before."""
    return list(map(min, [before, *top[:-1]], top))


def corner_limits(bend: Sequence[float], square: float | list[float], limits: Sequence[float]) -> list[float]:
    """v^2 at the start of each row, at most: the corner's own limit, and both rows' speeds. square: of the sudden
    change of speed, one number or a column."""
    if isinstance(square, float):
        return [own if (own := one * square) < limit else limit for one, limit in zip(bend, limits, strict=True)]
    return list(map(min, map(mul, bend, square), limits))


def look_ahead(corner: Sequence[float], gain: Sequence[float], entry: float, leaving: float) -> list[float]:
    """v^2 at the start of each row and at the end of the last. gain: 2 a d of each row; ``corner[0]`` is not used.

    The running minima as the steps that they are, which plain Python takes more quickly than sums and minima of
    columns.
    """
    low = leaving
    back = [
        low if (low := low + step) < cap else (low := cap) for cap, step in zip(corner[:0:-1], gain[:0:-1], strict=True)
    ]
    back.reverse()
    low = entry
    found = [entry]
    found += [low if (low := low + step) < cap else (low := cap) for cap, step in zip(back, gain, strict=False)]
    found.append(min(low + gain[-1], leaving))
    return found


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
    peaks = [(w0 + w1 + more) * 0.5 for w0, w1, more in zip(w, w[1:], gain, strict=False)]
    return [
        ((fast := sqrt(peak)) + fast - v0 - v1) / a if peak <= vv else (v + v - v0 - v1 + (peak - vv) / v) / a
        for peak, vv, v0, v1, v, a in zip(peaks, square, ends, ends[1:], speed, acceleration, strict=False)
    ]


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


def as_mask(laid: list[bool]) -> list[bool]:
    """Flags of rows as a column."""
    return laid


def masked(column: Sequence[float], mask: Sequence[bool]) -> list[float]:
    """0 where the flag is not set."""
    return [value if one else 0.0 for value, one in zip(column, mask, strict=True)]


def part_sums(column: Sequence[float], places: Sequence[int]) -> list[float]:
    """The sum of each part, from place to place."""
    return [sum(column[begin:end]) for begin, end in pairwise(places)]


def part_maxima(column: Sequence[float], places: Sequence[int]) -> list[float]:
    """The largest value of each part."""
    return [max(column[begin:end]) for begin, end in pairwise(places)]


def part_slopes(column: Sequence[float], places: Sequence[int]) -> list[bool]:
    """Whether any value of each part is not 0."""
    return [any(column[begin:end]) for begin, end in pairwise(places)]
