"""Arcs and helices as chords of at most a degree: 0.001 % shorter than the arc.

Source: NISTIR 6556, section 3.5.3 (partial transcription and memory): centre form by I J K from the current point,
radius form by R (short arc; the long one where R is below zero), the third axis going along evenly.
"""

import math
from collections.abc import Mapping, Sequence

from profilesmith.foundation.named_tuple import NamedTuple

STEP = math.radians(1.0)
# The report asks that both ends have the same radius; machines allow for rounding [common practice, no source].
SLACK_MM = 0.0127
# Which axes make the plane, in the order in which a counter-clockwise turn goes, the third one, and the centre's
# letters.
_PLANES = {"G17": (0, 1, 2, "I", "J"), "G18": (2, 0, 1, "K", "I"), "G19": (1, 2, 0, "J", "K")}
_AXIS = "XYZ"


class CannotArc(NamedTuple):
    """Why there is no such arc."""

    code: str


def chords(
    start: Sequence[float],
    end: Sequence[float],
    values: Mapping[str, float | None],
    plane: str,
    clockwise: bool,
    scale: float,
    centre_absolute: bool = False,
) -> list[tuple[float, float, float]] | CannotArc:
    """The ends of the chords, the last one the arc's own end. Lengths in mm; ``values`` as written, times ``scale``."""
    one, two, three, letter_one, letter_two = _PLANES[plane]
    a0, b0, a1, b1 = start[one], start[two], end[one], end[two]
    whole = values.get(_AXIS[one]) is None and values.get(_AXIS[two]) is None
    centre = _centre(values, (letter_one, letter_two), (a0, b0, a1, b1), clockwise, scale, centre_absolute)
    if isinstance(centre, CannotArc):
        return centre
    ca, cb = centre
    radius, radius_end = math.hypot(a0 - ca, b0 - cb), math.hypot(a1 - ca, b1 - cb)
    if radius <= 0 or abs(radius - radius_end) > SLACK_MM:
        return CannotArc("arc-radius")
    turn = _turn(math.atan2(b0 - cb, a0 - ca), math.atan2(b1 - cb, a1 - ca), clockwise, whole or (a0, b0) == (a1, b1))
    count = max(1, math.ceil(abs(turn) / STEP))
    angle = math.atan2(b0 - cb, a0 - ca)
    points = []
    for step in range(1, count):
        share = step / count
        grown = radius + (radius_end - radius) * share
        spot = [0.0, 0.0, 0.0]
        spot[one] = ca + grown * math.cos(angle + turn * share)
        spot[two] = cb + grown * math.sin(angle + turn * share)
        spot[three] = start[three] + (end[three] - start[three]) * share
        points.append((spot[0], spot[1], spot[2]))
    return [*points, (end[0], end[1], end[2])]


def _centre(
    values: Mapping[str, float | None],
    letters: tuple[str, str],
    ends: tuple[float, float, float, float],
    clockwise: bool,
    scale: float,
    absolute: bool,
) -> tuple[float, float] | CannotArc:
    a0, b0 = ends[:2]
    if values.get("R") is not None:
        return _centre_by_radius(ends, (values["R"] or 0.0) * scale, clockwise)
    first, second = (values.get(letter) for letter in letters)
    if first is None and second is None:
        return CannotArc("arc-centre")
    if absolute:
        return (a0 if first is None else first * scale, b0 if second is None else second * scale)
    return a0 + (first or 0.0) * scale, b0 + (second or 0.0) * scale


def _centre_by_radius(
    ends: tuple[float, float, float, float], radius: float, clockwise: bool
) -> tuple[float, float] | CannotArc:
    a0, b0, a1, b1 = ends
    chord = math.hypot(a1 - a0, b1 - b0)
    half = chord / 2
    if chord == 0 or abs(radius) < half - SLACK_MM:
        return CannotArc("arc-radius")
    away = math.sqrt(max(0.0, radius * radius - half * half))
    left = (clockwise and radius < 0) or (not clockwise and radius > 0)
    side = away if left else -away
    return (a0 + a1) / 2 - (b1 - b0) / chord * side, (b0 + b1) / 2 + (a1 - a0) / chord * side


def _turn(begin: float, end: float, clockwise: bool, full: bool) -> float:
    """How far the arc turns, radians; below zero for clockwise."""
    turn = (begin - end if clockwise else end - begin) % math.tau
    if full or turn == 0:
        turn = math.tau
    return -turn if clockwise else turn
