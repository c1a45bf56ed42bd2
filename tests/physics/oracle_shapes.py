"""Shapes drawn and measured by shapely, a library for plane geometry: beads, walls, slopes, lines and their gaps."""

from __future__ import annotations

import math
from typing import Any


def bead(width: float, height: float, x: float = 0.0, y: float = 0.0, fine: int = 1024) -> Any:
    """A laid bead: a line with a round brush."""
    from shapely import LineString

    half = (width - height) / 2
    return LineString([(x - half, y), (x + half, y)]).buffer(height / 2, quad_segs=fine)


def wall_width(beads: int, width: float, height: float, spacing: float) -> float:
    """Outer width of beads that lie side by side."""
    from shapely import unary_union

    left, _, right, _ = unary_union([bead(width, height, at * spacing) for at in range(beads)]).bounds
    return float(right - left)


def valley_depth(height: float) -> float:
    """How deep the groove between two stacked beads goes in from their outermost line."""
    from shapely import unary_union

    stack = unary_union([bead(10 * height, height, 0, at * height) for at in range(2)])
    line = stack.boundary.intersection(bead(40 * height, height / 1e4, 0, height / 2).envelope)
    return float(stack.bounds[2] - max(x for part in line.geoms for x, _ in part.coords))


def stair_depth(height: float, lean_deg: float) -> float:
    """How deep the inner corner of a stair lies below the slope through its tips."""
    from shapely import LineString, Point

    run = height * math.tan(math.radians(lean_deg))
    return float(Point(0.0, height).distance(LineString([(0.0, 0.0), (run, height)]))) if lean_deg else 0.0


def resting_share(width: float, height: float, lean_deg: float) -> float:
    """Share of a bead's width that lies over the one below on a slope."""
    from shapely import box

    step = height * math.tan(math.radians(lean_deg))
    return float(box(0, 0, width, 1).intersection(box(step, 0, step + width, 1)).area / width)


def arc_strain(thickness: float, coating: float, inner_radius: float) -> float:
    """Length of a coating's outside over that of the middle of the bent part, less one: half circles, measured."""
    from shapely import Point

    def arc(radius: float) -> float:
        return float(Point(0, 0).buffer(radius, quad_segs=20000).length)

    return arc(inner_radius + thickness + coating) / arc(inner_radius + thickness / 2) - 1


def play(tube: float, filament: float, bend: float) -> float:
    """Filament along the outer wall of a bend less filament along the inner one."""
    middle, room = 100.0, (tube - filament) / 2
    return sum((middle + side * room) * bend * side for side in (1, -1))


def covered_share(width: float, spacing: float, plate: float = 900.0) -> float:
    """Share of a plate that lines at this distance cover."""
    from shapely import box, unary_union

    lines = [box(at * spacing, 0, at * spacing + width, plate) for at in range(round(plate / spacing))]
    return float(unary_union(lines).area / plate**2)


def widest_circle(directions: tuple[float, ...], width: float, density: float, shift: float = 0.0) -> float:
    """Diameter of the largest circle between lines without width, in sets that share the density, by directions [deg].

    shift: how far the last set lies off the crossings of the others, in its own spacings.
    """
    from shapely import LineString, polygonize
    from shapely import maximum_inscribed_circle as inscribed

    spacing, lines = len(directions) * width / density, []
    for number, angle in enumerate(directions):
        along = (math.cos(math.radians(angle)), math.sin(math.radians(angle)))
        across, off = (-along[1], along[0]), shift if number == len(directions) - 1 else 0.0
        for at in range(-8, 9):
            x, y = (across[axis] * (at + off) * spacing for axis in (0, 1))
            lines.append(((x - 99 * along[0], y - 99 * along[1]), (x + 99 * along[0], y + 99 * along[1])))
    cells = polygonize(_crossed([LineString(ends) for ends in lines]))
    inner = [cell for cell in cells.geoms if cell.centroid.distance(LineString([(0, 0), (0, 1e-9)])) < 3 * spacing]
    return float(2 * max(inscribed(cell, tolerance=1e-4).length for cell in inner))


def _crossed(lines: list[Any]) -> list[Any]:
    from shapely import unary_union

    return list(unary_union(lines).geoms)


def hexagon_circle(width: float, density: float) -> float:
    """Diameter of the circle in a honeycomb whose shared walls, one bead thick, cover the density."""
    from scipy import optimize
    from shapely import Polygon

    def cover(side: float) -> float:
        cell = Polygon([(side * math.cos(math.pi * k / 3), side * math.sin(math.pi * k / 3)) for k in range(6)])
        return float(1 - cell.buffer(-width / 2, join_style="mitre").area / cell.area)

    side = optimize.brentq(lambda value: cover(value) - density, width, 1e3 * width)
    return float(side * math.sqrt(3))
