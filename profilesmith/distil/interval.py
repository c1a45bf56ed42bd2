"""Intervals of parameter values, the densest of them, and the roundest number inside one."""

from collections.abc import Sequence
from fractions import Fraction
from math import inf
from typing import Self

from profilesmith.foundation.named_tuple import NamedTuple

FINEST, COARSEST = -6, 5
"""Powers of ten between which a round number is looked for."""


class Interval(NamedTuple):
    """Closed; None for an end that lies nowhere."""

    low: Fraction | None = None
    high: Fraction | None = None

    def holds(self, value: Fraction) -> bool:
        return (self.low is None or value >= self.low) and (self.high is None or value <= self.high)

    def meet(self, other: Self) -> Self:
        lows = [end for end in (self.low, other.low) if end is not None]
        highs = [end for end in (self.high, other.high) if end is not None]
        return self._replace(low=max(lows, default=None), high=min(highs, default=None))


def densest(intervals: Sequence[Interval], most: int = 2) -> list[Interval]:
    """The regions that lie in the largest number of intervals, at most ``most`` of them."""
    # Counted in floats, which keep the order of fractions and are ten times as quick; regions are exact again.
    spans = [(-inf if low is None else float(low), inf if high is None else float(high)) for low, high in intervals]
    ends = {float(end): end for interval in intervals for end in interval if end is not None}
    counts = {end: sum(low <= at <= high for low, high in spans) for at, end in ends.items()}
    best = max(counts.values(), default=0)
    regions: dict[Interval, None] = {}
    for end, count in counts.items():
        if count == best:
            region = Interval()
            for interval in intervals:
                region = region.meet(interval) if interval.holds(end) else region
            regions[region] = None
    return sorted(regions, key=lambda region: -inf if region.low is None else region.low)[:most]


def roundest(interval: Interval, near: Fraction) -> Fraction:
    """The roundest number inside: a multiple of the largest of ... 10, 5, 1, 0.5 ... that has one; of several the
    nearest.
    """
    largest = max(abs(float(near)), *(abs(float(end)) for end in interval if end is not None), 0.0)
    for step, size in STEPS:
        if size > largest:
            continue
        count = near / step
        below = (count.numerator // count.denominator) * step
        inside = [value for value in (below, below + step) if interval.holds(value) and (value or near == 0)]
        if inside:
            return min(inside, key=lambda value: abs(value - near))
    return near


def _steps() -> tuple[tuple[Fraction, float], ...]:
    """Each step with its size as a float, for quick comparing."""
    powers = (Fraction(10) ** power for power in range(COARSEST, FINEST - 1, -1))
    return tuple((step, float(step)) for power in powers for step in (power, power / 2))


STEPS = _steps()
