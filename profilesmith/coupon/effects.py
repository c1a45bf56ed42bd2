"""What each factor of a screen seems to do, ranked, not declared.

Ranked is by how likely a factor matters over all small models (``active_factors.py``), equal ones by what they seem to
do. An effect is the mean at the high level less the mean at the low one. Its uncertainty is told by Lenth's pseudo
standard error (R. V. Lenth, "Quick and Easy Analysis of Unreplicated Factorials", Technometrics 31 (1989) 469). Calling
a factor active at 80 % would find only half of them even in twelve prints; so the order is told, and how far apart its
places are.
"""

from collections.abc import Sequence
from statistics import fmean, median

from profilesmith.coupon.active_factors import active_chances
from profilesmith.coupon.designs import Row
from profilesmith.foundation.named_tuple import NamedTuple


class FactorEffect(NamedTuple):
    """size: in grades from the low to the high level. chance: that it matters, over all small models."""

    factor: int
    size: float
    chance: float = 0.0


def contrasts(columns: Sequence[Sequence[int]], results: Sequence[float]) -> list[float]:
    """The effect of each column of -1 and +1."""
    return [
        fmean([y for level, y in zip(column, results, strict=True) if level > 0])
        - fmean([y for level, y in zip(column, results, strict=True) if level < 0])
        for column in columns
    ]


def ranked(rows: Sequence[Row], results: Sequence[float]) -> list[FactorEffect]:
    """The factors by how likely they matter, the likeliest first; equal ones by size, then in the plan's order."""
    sizes, shares = contrasts(list(zip(*rows, strict=True)), results), active_chances(rows, results)
    effects = [
        FactorEffect(number, size, share) for number, (size, share) in enumerate(zip(sizes, shares, strict=True))
    ]
    return sorted(effects, key=lambda effect: (-round(effect.chance, 9), -abs(effect.size)))


def pseudo_error(effects: Sequence[float]) -> float:
    """Lenth's pseudo standard error: 1.5 times the median of those below 2.5 times the first such guess."""
    sizes = [abs(effect) for effect in effects]
    first = 1.5 * median(sizes)
    kept = [size for size in sizes if size < 2.5 * first]
    return 1.5 * median(kept) if kept else 0.0
