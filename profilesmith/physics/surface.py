"""What layers leave on a surface, how much of a bead lies on the layer below where a face leans, and what sanding
leaves of a wall. Geometry only: looks are not judged. Angles are from the VERTICAL: 0 is an upright wall.

Source: plane geometry. How little overlap still prints well is common practice and differs by material and cooling.
"""

from __future__ import annotations

import math

from profilesmith.physics.answer import NotValid, require_not_negative, require_positive, require_share
from profilesmith.physics.bead import solid_spacing_mm


def stair_cusp_mm(height_mm: float, angle_from_vertical_deg: float) -> float:
    """Depth of the stairs on a slope: ``h sin(alpha)``, alpha from the vertical [mm]; to level them, sand off as much.

    On an upright wall it is 0; there ``wall_valley_mm`` counts. Source: Dolenc & Makela 1994 [from memory], with square
    stairs; round bead edges change it by less than their own valley.
    """
    require_positive(height_mm=height_mm)
    if not 0 <= angle_from_vertical_deg <= 90:
        raise ValueError(f"an angle from the vertical lies from 0 to 90 deg, not {angle_from_vertical_deg!r}")
    return height_mm * math.sin(math.radians(angle_from_vertical_deg))


def wall_valley_mm(height_mm: float) -> float:
    """Deepest that the valleys between layers of an upright wall can be: ``h / 2`` [mm]. Source: stadium geometry."""
    require_positive(height_mm=height_mm)
    return height_mm / 2


def thickness_left_mm(thickness_mm: float, sanded_mm: float) -> float:
    """What is left of a wall after ``sanded_mm`` in all (both faces together): ``t - s``, at least 0 [mm].

    Source: arithmetic.
    """
    require_positive(thickness_mm=thickness_mm)
    require_not_negative(sanded_mm=sanded_mm)
    return max(0.0, thickness_mm - sanded_mm)


def beads_for_thickness(thickness_mm: float, width_mm: float, height_mm: float) -> int:
    """Fewest beads side by side that make a wall at least this thick: ``1 + ceil((t - w) / s)``.

    For a wall that is to be sanded, the thickness is what shall be left plus what is taken off.
    A wall that lacks less than a millionth of a bead counts as thick enough: the spacing holds pi, and floats round.
    ValueError as ``bead_area_mm2``. Source: plane geometry.
    """
    require_positive(thickness_mm=thickness_mm)
    more = (thickness_mm - width_mm) / solid_spacing_mm(width_mm, height_mm)
    return 1 + max(0, math.ceil(more - 1e-6))


def step_over_mm(height_mm: float, angle_from_vertical_deg: float) -> float | NotValid:
    """How far each layer reaches past the one below: ``h tan(alpha)`` [mm]. NotValid for a flat ceiling (90 deg).

    ValueError for an angle below 0 or above 90. A thinner layer helps: the step shrinks with it.
    """
    require_positive(height_mm=height_mm)
    _require_angle(angle_from_vertical_deg)
    if angle_from_vertical_deg == 90:
        return NotValid("flat-ceiling")
    return height_mm * math.tan(math.radians(angle_from_vertical_deg))


def overlap_share(bead_width_mm: float, height_mm: float, angle_from_vertical_deg: float) -> float:
    """Share of the bead's width that rests on the bead below: ``1 - h tan(alpha) / w``; 0 when it hangs free."""
    require_positive(bead_width_mm=bead_width_mm)
    step_mm = step_over_mm(height_mm, angle_from_vertical_deg)
    return 0.0 if isinstance(step_mm, NotValid) else max(0.0, 1 - step_mm / bead_width_mm)


def angle_at_overlap_deg(bead_width_mm: float, height_mm: float, resting_share: float) -> float:
    """Lean from the vertical at which this share of the bead still rests: ``atan(w (1 - share) / h)`` [deg]."""
    require_positive(bead_width_mm=bead_width_mm, height_mm=height_mm)
    require_share(resting_share=resting_share)
    return math.degrees(math.atan(bead_width_mm * (1 - resting_share) / height_mm))


def _require_angle(angle_deg: float) -> None:
    if not 0 <= angle_deg <= 90:
        raise ValueError(f"an angle from the vertical lies from 0 to 90 deg, not {angle_deg!r}")
