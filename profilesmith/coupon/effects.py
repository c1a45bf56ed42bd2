"""What each factor of a screen seems to do, ranked, not declared.

An effect is the mean at the high level less the mean at the low one. Its uncertainty is told by Lenth's pseudo standard
error (R. V. Lenth, "Quick and Easy Analysis of Unreplicated Factorials", Technometrics 31 (1989) 469). Calling a factor
active at 80 % would find only half of them even in twelve prints; so the order is told, and how far apart its places
are.
"""

from collections.abc import Sequence
from statistics import fmean, median
from typing import NamedTuple


class Effect(NamedTuple):
    """size: in grades from the low to the high level, or in the unit of what was measured."""

    factor: int
    size: float


def contrasts(columns: Sequence[Sequence[int]], results: Sequence[float]) -> list[float]:
    """The effect of each column of -1 and +1."""
    return [
        fmean([y for level, y in zip(column, results, strict=True) if level > 0])
        - fmean([y for level, y in zip(column, results, strict=True) if level < 0])
        for column in columns
    ]


def ranked(rows: Sequence[Sequence[int]], results: Sequence[float]) -> list[Effect]:
    """The factors by the size of what they seem to do, the largest first; equal ones in the plan's order."""
    sizes = contrasts(list(zip(*rows, strict=True)), results)
    return sorted((Effect(number, size) for number, size in enumerate(sizes)), key=lambda effect: -abs(effect.size))


def pseudo_error(effects: Sequence[float]) -> float:
    """Lenth's pseudo standard error: 1.5 times the median of those below 2.5 times the first such guess."""
    sizes = [abs(effect) for effect in effects]
    first = 1.5 * median(sizes)
    kept = [size for size in sizes if size < 2.5 * first]
    return 1.5 * median(kept) if kept else 0.0
