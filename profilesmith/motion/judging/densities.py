"""Densities from straight parallel lines, to about a tenth; other patterns are not judged.

Lines of width w that lie s apart fill w / s of a layer; several directions in one layer add up. Own derivation.
"""

from collections.abc import Callable
from itertools import pairwise
from math import pi
from statistics import median

from profilesmith.motion.figures import KindSum
from profilesmith.motion.judging.levels import laid_layers
from profilesmith.motion.judging.outcome import MotionCase, Outcome, met, not_judged

NEAR, FAR = 0.10, 0.20  # shares of the promised density: kept within the first, broken beyond the second
SAME_DIRECTION = 0.02  # radians
LEAST_LINES = 4
STRAIGHT_SHARE = 0.6


def density_of(setting: str, kind: str) -> Callable[[MotionCase], Outcome]:
    """Judge of one kind of line."""

    def judge(case: MotionCase) -> Outcome:
        if not case.figures.kinds_told:
            return not_judged("no-words")
        want, width = case.size(setting), case.size("bead.width")
        sums = [layer.kinds[kind] for layer in laid_layers(case.figures)[1:] if kind in layer.kinds]
        if not sums:
            return not_judged("none-laid")
        shares = [share for held in sums if held.lines and (share := _share(held)) is not None]
        if width is None or not want or not shares:
            return not_judged("no-straight-lines")
        seen = median(shares) * width * 100.0
        off = abs(seen - want) / want
        if NEAR < off <= FAR:
            return not_judged("density-near", (seen,))
        return met(off <= NEAR, (seen,), "density", layers=len(shares))

    return judge


def _share(held: KindSum) -> float | None:
    """Lines a millimetre across, all directions added; None where it is not made of straight parallel lines."""
    if sum(line[2] for line in held.lines) < STRAIGHT_SHARE * held.length:
        return None
    groups: list[list[tuple[float, float]]] = []
    for angle, offset, _ in sorted(held.lines):
        if groups and angle - groups[-1][-1][0] <= SAME_DIRECTION:
            groups[-1].append((angle, offset))
        else:
            groups.append([(angle, offset)])
    if len(groups) > 1 and groups[0][0][0] + pi - groups[-1][-1][0] <= SAME_DIRECTION:  # pi is 0 again, mirrored
        groups[0] += [(angle - pi, -offset) for angle, offset in groups.pop()]
    spaces = [space for group in groups if (space := _space(sorted(offset for _, offset in group))) is not None]
    return sum(1.0 / space for space in spaces) if spaces else None


def _space(offsets: list[float]) -> float | None:
    """The usual distance of neighbours; pieces of one line count as one."""
    gaps = [after - before for before, after in pairwise(offsets) if after - before > 0.05]
    return median(gaps) if len(gaps) >= LEAST_LINES - 1 else None
