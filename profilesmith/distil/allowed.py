"""Turned round: from a value before and after to the parameters with which an operation would have made it."""

from fractions import Fraction

from profilesmith.distil.interval import Interval
from profilesmith.distil.sample import Seen
from profilesmith.recipe.operations import Operation

EDGE = Fraction(999, 1000)
"""Exactly half a step away is no rounding of one value: 225 and 226 are not both a written 225.5."""


def allowed(operation: Operation, seen: Seen) -> Interval | None:
    """The parameter values with which an operation gives the tuned value; None for no such value."""
    before, after, slack = seen.before, seen.after, seen.slack
    if not isinstance(after, Fraction) or (before is not None and not isinstance(before, Fraction)):
        return None
    step = abs(seen.grid.step)
    if operation.is_exact:
        return Interval(after - slack * EDGE, after + slack * EDGE) if seen.touched else Interval(after, after)
    if before is None:
        return None
    if operation.asks == {"high"}:
        return (
            Interval(before)
            if after == before
            else Interval(after - slack, after + slack + step)
            if after < before
            else None
        )
    if operation.asks == {"low"}:
        return (
            Interval(None, before)
            if after == before
            else Interval(after - slack - step, after + slack)
            if after > before
            else None
        )
    half = max(slack, abs(seen.grid.step) / 2)
    low, high = _open_at_limits(after, half, seen)
    if operation.asks == {"plus"}:
        return Interval(None if low is None else low - before, None if high is None else high - before)
    if before <= 0:
        return Interval() if not after and not before else None
    return Interval(None if low is None else low / before * 100, None if high is None else high / before * 100)


def _open_at_limits(after: Fraction, half: Fraction, seen: Seen) -> tuple[Fraction | None, Fraction | None]:
    """Where a scaled value may have lain: anywhere beyond a hard limit, when it stands at that limit."""
    if seen.inside:
        return after - half, after + half
    lows, highs = (
        (
            [end for end in ends if end is not None]
            for ends in zip(*((limit.low, limit.high) for limit in seen.limits), strict=True)
        )
        if seen.limits
        else ((), ())
    )
    low = None if after in lows else after - half
    return low, None if after in highs else after + half
