"""Arithmetic on columns in pure Python. ``numpy_columns`` does the same, operation by operation, so that results agree.

Look-ahead: with u = v^2 / 2 the speed at a corner is bounded by ``u <= corner``, and from corner to corner u can change by
at most a d. With s the running sum of a d, both passes are running minima: of ``corner - s`` from the front and of
``corner + s`` from the back. Own derivation; held against a fine phase-plane integration in the tests.
"""

from collections.abc import Sequence
from itertools import accumulate
from math import sqrt
from operator import add, mul, sub, truediv

STRAIGHT = 1e-15  # 1 - cos of a corner that is none


def offsets(column: Sequence[float], first: float) -> list[float]:
    """How far each row goes along one axis."""
    return list(map(sub, column, [first, *column[:-1]]))


def lengths(dx: Sequence[float], dy: Sequence[float], dz: Sequence[float]) -> list[float]:
    if not any(dz):
        return [sqrt(x * x + y * y) for x, y in zip(dx, dy, strict=True)]
    return [sqrt(x * x + y * y + z * z) for x, y, z in zip(dx, dy, dz, strict=True)]


def halved_squares(speeds: Sequence[float]) -> list[float]:
    return [speed * speed / 2.0 for speed in speeds]


def bends(
    dx: Sequence[float], dy: Sequence[float], dz: Sequence[float], length: Sequence[float], before: Sequence[float]
) -> list[float]:
    """For the corner at the start of each row: ``1 / (4 (1 - cos))``; 0 where a row has no length. before: the row
    before the first: its three offsets and its length."""
    x0, y0, z0, d0 = before
    found = []
    for x1, y1, z1, d1 in zip(dx, dy, dz, length, strict=True):
        both = d0 * d1
        found.append(0.25 / max(1.0 - (x0 * x1 + y0 * y1 + z0 * z1) / both, STRAIGHT) if both else 0.0)
        x0, y0, z0, d0 = x1, y1, z1, d1
    return found


def scaled(column: Sequence[float], by: float) -> list[float]:
    return [one * by for one in column]


def corner_limits(corner: Sequence[float], top: Sequence[float], top_before: float) -> list[float]:
    """v^2 / 2 at the start of each row, at most: the corner's own limit, and both rows' speeds."""
    return list(map(min, corner, [top_before, *top[:-1]], top))


def look_ahead(corner: Sequence[float], gain: Sequence[float], entry: float, leaving: float) -> list[float]:
    """v^2 / 2 at the start of each row and at the end of the last. gain: a d of each row; ``corner[0]`` is not used."""
    sums = list(accumulate(gain, initial=0.0))
    caps = [entry, *corner[1:], leaving]
    forth = map(add, accumulate(map(sub, caps, sums), min), sums)
    back = list(accumulate(reversed(list(map(add, caps, sums))), min))
    back.reverse()
    found = list(map(min, forth, map(sub, back, sums)))
    return found if min(found) >= 0.0 else [max(0.0, one) for one in found]  # below zero by rounding alone


def times(
    u: Sequence[float], speed: Sequence[float], gain: Sequence[float], acceleration: Sequence[float]
) -> list[float]:
    """Seconds of each row, as ``physics.moves.move_time_s``; 0 for rows without length. speed: as ordered, mm/s."""
    ends = [sqrt(2.0 * one) for one in u]
    return [
        ((fast := sqrt(peak)) + fast - v0 - v1) / a
        if (peak := (both := u0 + u1) + ad) <= (square := v * v)
        else (v + v - v0 - v1 + (ad - square + both) / v) / a
        for u0, u1, v0, v1, v, ad, a in zip(u, u[1:], ends, ends[1:], speed, gain, acceleration, strict=False)
    ]


def products(one: Sequence[float], other: Sequence[float]) -> list[float]:
    return list(map(mul, one, other))


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
