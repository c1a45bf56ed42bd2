"""Arithmetic on columns in pure Python. ``numpy_columns`` does the same, operation by operation, so that results agree.

Look-ahead: with u = v^2 / 2 the speed at a corner is bounded by ``u <= corner``, and from corner to corner u can change by
at most a d. With s the running sum of a d, both passes are running minima: of ``corner - s`` from the front and of
``corner + s`` from the back. Own derivation; held against a fine phase-plane integration in the tests.
"""

from collections.abc import Sequence
from itertools import accumulate
from math import sqrt
from operator import mul, sub, truediv

STRAIGHT = 1e-15  # 1 - cos of a corner that is none


def offsets(column: Sequence[float], first: float) -> list[float]:
    """How far each row goes along one axis."""
    return list(map(sub, column, [first, *column[:-1]]))


def lengths(dx: Sequence[float], dy: Sequence[float], dz: Sequence[float]) -> list[float]:
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


def corner_limits(bend: Sequence[float], top: Sequence[float], sudden: float, top_before: float) -> list[float]:
    """v^2 / 2 at the start of each row, at most: the corner's own limit, and both rows' speeds."""
    square = sudden * sudden
    return [
        min(one * square, before, behind)
        for one, before, behind in zip(bend, [top_before, *top[:-1]], top, strict=True)
    ]


def look_ahead(corner: Sequence[float], gain: Sequence[float], entry: float, leaving: float) -> list[float]:
    """v^2 / 2 at the start of each row and at the end of the last. gain: a d of each row; ``corner[0]`` is not used."""
    sums = list(accumulate(gain, initial=0.0))
    caps = [entry, *corner[1:], leaving]
    forth = [low + s for low, s in zip(accumulate(map(sub, caps, sums), min), sums, strict=True)]
    high = [cap + s for cap, s in zip(caps, sums, strict=True)]
    back = list(accumulate(reversed(high), min))
    back.reverse()
    return [max(0.0, min(one, other - s)) for one, other, s in zip(forth, back, sums, strict=True)]


def times(
    u: Sequence[float], top: Sequence[float], gain: Sequence[float], acceleration: Sequence[float]
) -> list[float]:
    """Seconds of each row, as ``physics.moves.move_time_s``; 0 for rows without length."""
    speeds = [sqrt(2.0 * one) for one in u]
    found = []
    for u0, u1, v0, v1, cap, ad, a in zip(u, u[1:], speeds, speeds[1:], top, gain, acceleration, strict=False):
        peak = (u0 + u1 + ad) / 2.0
        if peak <= cap:
            found.append((2.0 * sqrt(2.0 * peak) - v0 - v1) / a)
        else:
            fast = sqrt(2.0 * cap)
            found.append((2.0 * fast - v0 - v1 + max(0.0, ad - 2.0 * cap + u0 + u1) / fast) / a)
    return found


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
