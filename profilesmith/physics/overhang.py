"""How much of a bead lies on the layer below where a face leans. Angles are from the VERTICAL: 0 is an upright wall.

Source: plane geometry. How little overlap still prints well is common practice and differs by material and cooling.
"""

from __future__ import annotations

import math

from profilesmith.physics.answer import NotValid
from profilesmith.physics.inputs import require_positive, require_share


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
