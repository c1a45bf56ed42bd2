"""Where the names of a line figure's limits stand: above their line, on the side where fewer curves run.

Limits that lie close together have their names above the highest of them, in the order of the lines, so that no line
goes through a name. Places down are em, as in the whole drawing. How wide a name is depends on the reader's screen, so
it is taken for as wide as on a telephone.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise

from profilesmith.foundation.named_tuple import NamedTuple

WIDE = 0.6  # of the figure's width
HEIGHT, AWAY = 1.2, 0.3
SAMPLES = 12
Curve = Callable[[float], float | None]
"""A share of the figure's width to a place down; None where the curve does not run."""


class NamePlace(NamedTuple):
    """right: the name ends at the right edge; base: its base line."""

    right: bool
    base: float


def room(count: int) -> float:
    """The room that the names of so many limits need above the highest line, when all lie close together."""
    return HEIGHT * max(count, 1) + AWAY


def spots(lines: Sequence[float], curves: Sequence[Curve]) -> list[NamePlace]:
    """One spot for each line, in their order. lines: places down."""
    places = dict[int, NamePlace]()
    for crowd in _crowds(lines):
        top, low = lines[crowd[0]] - room(len(crowd)), lines[crowd[0]]
        right = _crossed(top, low, 1 - WIDE, curves) <= _crossed(top, low, 0.0, curves)
        for place, number in enumerate(reversed(crowd)):
            places[number] = NamePlace(right, low - AWAY - HEIGHT * place)
    return [places[number] for number in range(len(lines))]


def _crowds(lines: Sequence[float]) -> list[list[int]]:
    """Lines whose names would run into other lines, each crowd from its highest line down."""
    crowds: list[list[int]] = []
    for number in sorted(range(len(lines)), key=lambda number: lines[number]):
        crowds.append([number])
        while len(crowds) > 1 and lines[crowds[-1][0]] - room(len(crowds[-1])) < lines[crowds[-2][-1]]:
            last = crowds.pop()
            crowds[-1] += last
    return crowds


def _crossed(top: float, low: float, start: float, curves: Sequence[Curve]) -> int:
    """How often the curves run where a name that begins at ``start`` would stand."""
    places = [start + WIDE * number / SAMPLES for number in range(SAMPLES + 1)]
    return sum(top < down < low for curve in curves for at in places if (down := curve(at)) is not None)


def curve_of(points: Sequence[tuple[float, float]]) -> Curve:
    """A curve through points of (share of the width, place down), straight between them."""

    def down(at: float) -> float | None:
        for (left, one), (right, other) in pairwise(points):
            if left <= at <= right:
                return one if left == right else one + (other - one) * (at - left) / (right - left)
        return None

    return down
