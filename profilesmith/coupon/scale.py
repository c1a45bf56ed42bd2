"""Where values of a setting stand on the axis ``u``, along which prints get worse.

Speeds, lengths and shares are compared as ratios: u is the natural logarithm, since a judge who cannot tell 40 from 42
mm/s cannot tell 80 from 84 either. Temperatures, angles, and ranges that begin at 0 are compared as differences: the
planned range is laid over SPAN units of u, so that the spreads of ``judge_model.py`` mean a like share of it. Where low
values are the worse ones, u runs the other way.
"""

from fractions import Fraction
from math import ceil, exp, floor, log, log1p

from profilesmith.foundation.named_tuple import NamedTuple

SPAN = 2.0
DIFFERENCES = ("temperature", "angle", "count")


class Scale(NamedTuple):
    """low, high: the planned range; step: what is worth writing; all in the setting's canonical unit."""

    low: Fraction
    high: Fraction
    step: Fraction
    ratio: bool
    high_is_worse: bool

    @property
    def sign(self) -> int:
        return 1 if self.high_is_worse else -1

    @property
    def ends(self) -> tuple[float, float]:
        """The planned range along u, the better end first."""
        ends = self.u(self.low), self.u(self.high)
        return min(ends), max(ends)

    def u(self, value: Fraction) -> float:
        if self.ratio:
            return self.sign * log(float(value))
        return self.sign * SPAN * float((value - self.low) / (self.high - self.low))

    def exact(self, u: float) -> float:
        """The value at u, as it is."""
        if self.ratio:
            return exp(self.sign * u)
        return float(self.low) + self.sign * u / SPAN * float(self.high - self.low)

    def value(self, u: float) -> Fraction:
        """The nearest value that is worth writing, inside the planned range."""
        return min(max(round(Fraction(self.exact(u)) / self.step) * self.step, self._first()), self._last())

    def safer(self, u: float) -> Fraction:
        """The first value that is worth writing on the better side of u. Not held to the range: it is told, not
        printed.
        """
        steps = self.exact(u) / float(self.step)
        count = floor(steps + 1e-9) if self.high_is_worse else ceil(steps - 1e-9)
        return max(count, 0) * self.step

    def half_width(self, within: Fraction) -> float:
        """``within`` along u: a share such as 1/10 of a ratio, else a difference in the setting's unit."""
        if self.ratio:
            return log1p(float(within))
        return SPAN * float(within / (self.high - self.low))

    def spread_of(self, half: float) -> float:
        """The other way: a half width along u as a share, or as a difference."""
        return exp(half) - 1 if self.ratio else half / SPAN * float(self.high - self.low)

    def _first(self) -> Fraction:
        return ceil(self.low / self.step) * self.step

    def _last(self) -> Fraction:
        return floor(self.high / self.step) * self.step


def is_ratio(kind: str, low: Fraction) -> bool:
    """Whether a kind of setting is compared by ratios from there on."""
    return low > 0 and kind not in DIFFERENCES
