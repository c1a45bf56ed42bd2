"""How many times as long the same paths take with other speeds: 2 is twice as long. The bracket always holds; a
narrower one needs the lengths of the moves, which a settings text does not tell.
"""

from __future__ import annotations

import math

from profilesmith.physics.answer import Bracket
from profilesmith.physics.inputs import require_positive


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


def layer_count_factor(old_height_mm: float, new_height_mm: float) -> float:
    """How many times as many layers the same part has: ``h / h'`` (the first layer and rounding left out).

    Source: arithmetic.
    """
    require_positive(old_height_mm=old_height_mm, new_height_mm=new_height_mm)
    return old_height_mm / new_height_mm
