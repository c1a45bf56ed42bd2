"""Arithmetic on columns with numpy, where it is installed: the same as ``plain_columns``, to eleven digits and more.

An extra, not a need: no other file of the package imports numpy.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from profilesmith.motion.numpy_lines import NumpyLines
from profilesmith.motion.plain_columns import STRAIGHT

read_lines = NumpyLines
Column = Any  # an array of floats; numpy's own types would be needed for checking alone


def _array(column: Sequence[float]) -> Column:
    return np.asarray(column, dtype=np.float64)


def offsets(column: Sequence[float], first: float) -> Column:
    """How far each row goes along one axis."""
    ends = _array(column)
    steps = np.empty_like(ends)
    steps[:1] = ends[:1] - first
    np.subtract(ends[1:], ends[:-1], out=steps[1:])
    return steps


def lengths(dx: Column, dy: Column, dz: Column) -> Column:
    x, y, z = _array(dx), _array(dy), _array(dz)
    return np.sqrt(x * x + y * y + z * z)


def squares(speeds: Sequence[float]) -> Column:
    column = _array(speeds)
    return column * column


def bends(dx: Column, dy: Column, dz: Column, length: Column, before: Sequence[float]) -> Column:
    """See ``plain_columns.bends``."""
    x1, y1, z1, d1 = (_array(column) for column in (dx, dy, dz, length))
    x0, y0, z0, d0 = (
        np.concatenate(([value], column[:-1])) for value, column in zip(before, (x1, y1, z1, d1), strict=True)
    )
    both = d0 * d1
    safe = np.where(both == 0.0, 1.0, both)
    turn = 1.0 - (x0 * x1 + y0 * y1 + z0 * z1) / safe
    return np.where(both == 0.0, 0.0, 0.5 / np.maximum(turn, STRAIGHT))


def neighbours(top: Column, before: float) -> Column:
    """See ``plain_columns.neighbours``."""
    caps = _array(top)
    return np.minimum(np.concatenate(([before], caps[:-1])), caps)


def look_ahead(bend: Column, square: float | list[float], limits: Column, gain: Column, entry: float) -> Column:
    """See ``plain_columns.look_ahead``."""
    corner = np.minimum(_array(bend) * np.asarray(square), limits)
    sums = np.concatenate(([0.0], np.cumsum(_array(gain))))
    caps = np.concatenate(([entry], corner[1:], [0.0]))
    forth = np.minimum.accumulate(caps - sums) + sums
    back = np.minimum.accumulate((caps + sums)[::-1])[::-1]
    return np.maximum(0.0, np.minimum(forth, back - sums))


def times(w: Column, speed: Sequence[float], square: Column, gain: Column, acceleration: Sequence[float]) -> Column:
    """See ``plain_columns.times``."""
    squared, v, vv, a = _array(w), _array(speed), _array(square), _array(acceleration)
    ends = np.sqrt(squared)
    peak = (squared[:-1] + squared[1:] + gain) * 0.5
    beyond = np.where(peak <= vv, 0.0, peak - vv) / v
    fast = np.where(peak <= vv, np.sqrt(peak), v)
    return (fast + fast - ends[:-1] - ends[1:] + beyond) / a


def largest(column: Column) -> float:
    return float(column.max())


def gains(length: Column, acceleration: Sequence[float]) -> Column:
    """See ``plain_columns.gains``."""
    return _array(length) * _array(acceleration) * 2.0


def laid(length: Column, strand: Sequence[float]) -> Column:
    """Rows that lay material."""
    return (_array(length) > 0.0) & (_array(strand) > 0.0)


def quotients(one: Sequence[float], other: Sequence[float]) -> Column:
    return _array(one) / _array(other)


def flows(strand: Sequence[float], seconds: Column) -> Column:
    """See ``plain_columns.flows``."""
    fed, took = _array(strand), _array(seconds)
    return np.where(took == 0.0, 0.0, fed / np.where(took == 0.0, 1.0, took))


def as_list(column: Column) -> list[float]:
    """A column as a plain list: single items of an array are slow."""
    return column.tolist()  # type: ignore[no-any-return]


def as_column(values: list[float]) -> Column:
    """A plain list as a column."""
    return np.array(values, dtype=np.float64)


def accelerations(laid: Column, laying: float, travelling: float) -> Column:
    """One of two for each row."""
    return np.where(np.asarray(laid), laying, travelling)


def part_sums(column: Column, places: Sequence[int], asked: Sequence[bool]) -> list[float]:
    """The sum of each part, from place to place, asked for or not."""
    if len(places) < 2:
        return []
    return np.add.reduceat(_array(column)[: places[-1]], places[:-1]).tolist()  # type: ignore[no-any-return]


def part_maxima(column: Column, places: Sequence[int], asked: Sequence[bool]) -> list[float]:
    """The largest value of each part."""
    if len(places) < 2:
        return []
    return np.maximum.reduceat(_array(column)[: places[-1]], places[:-1]).tolist()  # type: ignore[no-any-return]


def part_slopes(column: Column, places: Sequence[int], asked: Sequence[bool]) -> list[bool]:
    """Whether any value of each part is not 0."""
    if len(places) < 2:
        return []
    some: list[bool] = np.logical_or.reduceat(_array(column)[: places[-1]] != 0.0, places[:-1]).tolist()
    return some
