"""Straight lines of filling and support, as direction and offset: how dense they lie is judged from them."""

from math import atan2, cos, pi, sin

from profilesmith.motion.figures import KindSum
from profilesmith.motion.parts import Parts

LINED = frozenset({"infill", "support", "support_contact"})
LEAST_MM = 2.0
MOST_LAYERS, MOST_LINES = 60, 500


class Parallels:
    """Keeps the lines of some layers; memory does not grow with the file."""

    def __init__(self) -> None:
        self.layers = 0

    def take(self, parts: Parts, held: KindSum, begin: int, end: int) -> None:
        """The long rows of one part."""
        rows, dx, dy, length = parts.rows, parts.dx, parts.dy, parts.lengths
        if not held.lines:
            if self.layers >= MOST_LAYERS:
                return
            self.layers += 1
        for at in range(begin, end):
            if length[at] >= LEAST_MM and len(held.lines) < MOST_LINES:
                angle = atan2(dy[at], dx[at]) % pi
                offset = rows.y[at] * cos(angle) - rows.x[at] * sin(angle)
                held.lines.append((angle, offset, length[at]))
