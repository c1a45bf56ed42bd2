"""How long a straight move takes: speed up, run, slow down, at one constant acceleration (the trapezoid of speed); and
how many times as long the same paths take with other speeds.

Source: Biagiotti & Melchiorri 2008, Trajectory Planning for Automatic Machines and Robots, Springer, ch. 3 (section 3.2
[from memory]). Left out: jerk limits, pressure lag, the least time of a layer, heating. So these times serve to compare
two settings; they are not the minutes of a print.
"""

from __future__ import annotations

import math

from profilesmith.physics.answer import Bracket, NotValid, require_not_negative, require_positive

_HALF_ROOT_PI = math.sqrt(math.pi) / 2


def peak_speed_mm_s(
    distance_mm: float, speed_mm_s: float, acceleration_mm_s2: float, entry_mm_s: float = 0.0, exit_mm_s: float = 0.0
) -> float | NotValid:
    """Highest speed of the move: ``min(v, sqrt(a d + (v0^2 + v1^2) / 2))`` [mm/s].

    NotValid when it enters or leaves faster than its own speed, or when the distance is too short to get from one to
    the other. ValueError for a distance, speed or acceleration that is not above zero. Source: see the module.
    """
    require_positive(distance_mm=distance_mm, speed_mm_s=speed_mm_s, acceleration_mm_s2=acceleration_mm_s2)
    require_not_negative(entry_mm_s=entry_mm_s, exit_mm_s=exit_mm_s)
    if max(entry_mm_s, exit_mm_s) > speed_mm_s:
        return NotValid("ends-faster-than-the-move")
    if abs(exit_mm_s**2 - entry_mm_s**2) > 2 * acceleration_mm_s2 * distance_mm:
        return NotValid("too-short-to-change-speed")
    free_peak = math.sqrt(acceleration_mm_s2 * distance_mm + (entry_mm_s**2 + exit_mm_s**2) / 2)
    return min(speed_mm_s, free_peak)


def move_time_s(
    distance_mm: float, speed_mm_s: float, acceleration_mm_s2: float, entry_mm_s: float = 0.0, exit_mm_s: float = 0.0
) -> float | NotValid:
    """Duration of the move [s]: ``(2 vp - v0 - v1) / a``, and the rest of the distance at ``vp``.

    ``vp`` is the peak speed. Speeding up and slowing down cover ``(2 vp^2 - v0^2 - v1^2) / (2 a)``. NotValid and
    ValueError as ``peak_speed_mm_s``. Source: see the module.
    """
    peak = peak_speed_mm_s(distance_mm, speed_mm_s, acceleration_mm_s2, entry_mm_s, exit_mm_s)
    if isinstance(peak, NotValid):
        return peak
    ramps_mm = (2 * peak**2 - entry_mm_s**2 - exit_mm_s**2) / (2 * acceleration_mm_s2)
    run_mm = max(0.0, distance_mm - ramps_mm)
    return (2 * peak - entry_mm_s - exit_mm_s) / acceleration_mm_s2 + run_mm / peak


def mean_move_time_s(mean_length_mm: float, speed_mm_s: float, acceleration_mm_s2: float) -> float:
    """Mean duration [s] of moves from rest to rest, whose lengths follow the exponential law of this mean.

    With ``u = v^2 / (a m)``: ``2 sqrt(m / a) (sqrt(pi) / 2 erf(sqrt u) - sqrt(u) e^-u) + e^-u (2 v / a + m / v)``.
    Many short moves and few long ones is a plain guess at a layer, not a measurement; moves that do not stop at their
    ends are quicker. Own derivation: the integral of ``move_time_s`` over that law.
    """
    if not (0 < mean_length_mm < math.inf and 0 < speed_mm_s < math.inf and 0 < acceleration_mm_s2 < math.inf):
        require_positive(mean_length_mm=mean_length_mm, speed_mm_s=speed_mm_s, acceleration_mm_s2=acceleration_mm_s2)
    u = speed_mm_s**2 / (acceleration_mm_s2 * mean_length_mm)
    root, rare = math.sqrt(u), math.exp(-u)
    short = _HALF_ROOT_PI * math.erf(root) - root * rare
    long_s = rare * (2 * speed_mm_s / acceleration_mm_s2 + mean_length_mm / speed_mm_s)
    return 2 * math.sqrt(mean_length_mm / acceleration_mm_s2) * short + long_s


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
