"""Axis: numbers to places on a figure, with round ticks.

Ticks: steps of 1, 2 or 5 times a power of ten (Heckbert 1990, "Nice numbers for graph labels", Graphics Gems).
"""

from __future__ import annotations

import math
from collections.abc import Iterable

from profilesmith.foundation.named_tuple import NamedTuple

# Left and right of the ends there is room for half a mark, so that nothing is cut off.
EDGE = 2.5


class Axis(NamedTuple):
    """low, high: the ends; step: between ticks."""

    low: float
    high: float
    step: float

    def share(self, value: float) -> float:
        """Where a value stands between the ends: 0 to 1, held at the ends."""
        return min(max((value - self.low) / (self.high - self.low), 0.0), 1.0)

    def percent(self, value: float) -> float:
        """Where a value stands on a figure's width, in percent."""
        return EDGE + self.share(value) * (100 - 2 * EDGE)

    def ticks(self) -> list[float]:
        """The round numbers from end to end."""
        count = round((self.high - self.low) / self.step)
        return [self.low + number * self.step for number in range(count + 1)]


def axis(values: Iterable[float], from_zero: bool, room: bool = False, most: int = 5) -> Axis:
    """An axis round about the values.

    from_zero: 0 is an end when no value lies below it. room: some space beyond the last value, to show that a window
    is open on that side. most: steps, about.
    """
    numbers = list(values)
    low, high = min(numbers, default=0.0), max(numbers, default=1.0)
    if from_zero:
        low, high = min(low, 0.0), max(high, 0.0)
    # Numbers that a drawing cannot tell apart stand in the middle.
    if high - low <= max(1e-9 * max(abs(low), abs(high)), 1e-12):
        low, high = low - abs(low) * 0.1 - 0.5, high + abs(high) * 0.1 + 0.5
    step = _round_step((high - low) / most)
    beyond = 0.05 if room else -1e-9
    first = low if from_zero and low == 0 else math.floor(low / step - beyond) * step
    last = high if from_zero and high == 0 else math.ceil(high / step + beyond) * step
    return Axis(first, last, step)


def reaches_zero(values: Iterable[float]) -> bool:
    """Whether an axis from zero would leave its numbers more than half of it; else it begins near the least of them."""
    numbers = list(values)
    return not numbers or min(numbers) <= max(numbers) / 2


def _round_step(rough: float) -> float:
    power = 10.0 ** math.floor(math.log10(rough))
    return next((factor * power for factor in (1, 2, 5) if rough <= factor * power * 1.0001), 10 * power)


def number_text(value: float, digits: int = 4) -> str:
    """A number for a figure: so many significant digits (whole numbers in full), no idle zeros, no exponent."""
    if value == 0:
        return "0"
    places = max(0, digits - 1 - math.floor(math.log10(abs(value))))
    text = f"{value:.{min(places, 9)}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text.replace("-", "−")
