"""How many times as long the same paths take with other speeds: 2 is twice as long. The bracket always holds; a point
needs the lengths of the moves, which a settings text does not tell.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from profilesmith.physics.answer import Bracket, NotValid
from profilesmith.physics.inputs import require_not_negative, require_positive
from profilesmith.physics.moves import mean_move_time_s, move_time_s


def time_factor_bracket(
    old_speed_mm_s: float,
    new_speed_mm_s: float,
    old_acceleration_mm_s2: float = 1.0,
    new_acceleration_mm_s2: float = 1.0,
) -> Bracket:
    """Bounds of the time factor for any path from rest to rest: least and most of 1, ``v / v'`` and ``sqrt(a / a')``.

    Slowed at the same acceleration: from 1 (no move ever reached the speed) to ``v / v'`` (all was done at speed).
    Accelerations may be left out when both are the same. Own derivation: the old motion, run ``k`` times slower, needs
    ``1 / k`` of the speed and ``1 / k^2`` of the acceleration. Not for paths whose time is set by something else (the
    least time of a layer, heating).
    """
    require_positive(old_speed_mm_s=old_speed_mm_s, new_speed_mm_s=new_speed_mm_s)
    require_positive(old_acceleration_mm_s2=old_acceleration_mm_s2, new_acceleration_mm_s2=new_acceleration_mm_s2)
    slowed = old_speed_mm_s / new_speed_mm_s
    eased = math.sqrt(old_acceleration_mm_s2 / new_acceleration_mm_s2)
    return Bracket(min(1.0, slowed, eased), max(1.0, slowed, eased))


def mean_time_factor(
    mean_length_mm: float, old_speed_mm_s: float, new_speed_mm_s: float, acceleration_mm_s2: float
) -> float:
    """Time factor for moves from rest to rest with lengths of the exponential law of this mean.

    An estimate: it lies inside the bracket, and is as good as the guess at the lengths. Own derivation: see
    ``mean_move_time_s``.
    """
    new_s = mean_move_time_s(mean_length_mm, new_speed_mm_s, acceleration_mm_s2)
    return new_s / mean_move_time_s(mean_length_mm, old_speed_mm_s, acceleration_mm_s2)


def listed_time_factor(
    lengths_mm: Iterable[float], old_speed_mm_s: float, new_speed_mm_s: float, acceleration_mm_s2: float
) -> float | NotValid:
    """Time factor for a list of moves from rest to rest. NotValid when the list is empty. Source: ``move_time_s``."""
    lengths = tuple(lengths_mm)
    if not lengths:
        return NotValid("no moves are listed", "the lengths of some typical moves")
    new_s, old_s = (_total_s(lengths, speed, acceleration_mm_s2) for speed in (new_speed_mm_s, old_speed_mm_s))
    return new_s / old_s


def mixture_time_factor(shares: Sequence[float], factors: Sequence[float]) -> float:
    """Time factor of a whole whose parts are slowed differently: ``1 + sum f_i (s_i - 1)``.

    ``shares``: of the time as it was, at most 1 in all; what they leave is not changed. Raises ValueError otherwise.
    Source: arithmetic.
    """
    if len(shares) != len(factors):
        raise ValueError("every share needs its factor")
    for share, factor in zip(shares, factors, strict=True):
        require_not_negative(share=share)
        require_positive(factor=factor)
    if math.fsum(shares) > 1 + 1e-9:
        raise ValueError("the shares are more than the whole")
    return 1 + math.fsum(share * (factor - 1) for share, factor in zip(shares, factors, strict=True))


def layer_count_factor(old_height_mm: float, new_height_mm: float) -> float:
    """How many times as many layers the same part has: ``h / h'`` (the first layer and rounding left out).

    Source: arithmetic.
    """
    require_positive(old_height_mm=old_height_mm, new_height_mm=new_height_mm)
    return old_height_mm / new_height_mm


def _total_s(lengths_mm: Sequence[float], speed_mm_s: float, acceleration_mm_s2: float) -> float:
    times = (move_time_s(length, speed_mm_s, acceleration_mm_s2) for length in lengths_mm)
    # From rest to rest no move is refused; the check is for the type only.
    return math.fsum(time for time in times if not isinstance(time, NotValid))
