"""The laid bead as a stadium: a flat strip with half-round edges. Areas, flow, feed and spacing follow from it.

The stadium is the usual idealisation of a strand that is pressed by the nozzle (Comminal, Serdeczny et al. 2018,
Additive Manufacturing 20:68-76 and 24:145-153 [from memory]; Turner, Strong & Gold 2014, Rapid Prototyping J.
20(3):192-204). The geometry is exact. A rectangle of the same width and height holds 5 to 15 % more.
A feed percentage multiplies the area, not the width.
"""

from __future__ import annotations

import math

from profilesmith.physics.answer import require_positive

# The corner that a half-round edge leaves empty, per height: a rectangle of width w - CORNER * h has the bead's area.
CORNER = 1 - math.pi / 4


def bead_area_mm2(width_mm: float, height_mm: float) -> float:
    """Cross-section of a laid bead: ``(w - h) h + pi h^2 / 4`` [mm2].

    Raises ValueError when the width is below the height (a strand laid in air is round, no stadium), or when one of
    them is not above zero. Source: plane geometry.
    """
    require_positive(width_mm=width_mm, height_mm=height_mm)
    if width_mm < height_mm:
        raise ValueError(f"a bead of width {width_mm!r} mm is narrower than its height {height_mm!r} mm: no stadium")
    return (width_mm - height_mm) * height_mm + math.pi * height_mm**2 / 4


def flow_mm3_s(speed_mm_s: float, width_mm: float, height_mm: float) -> float:
    """Volume laid per second: ``Q = A v`` [mm3/s]. Raises ValueError as ``bead_area_mm2``. Source: mass balance."""
    require_positive(speed_mm_s=speed_mm_s)
    return bead_area_mm2(width_mm, height_mm) * speed_mm_s


def speed_at_flow_mm_s(flow_mm3_s: float, width_mm: float, height_mm: float) -> float:
    """Speed at which a bead needs this flow: ``v = Q / A`` [mm/s]. Raises ValueError as ``bead_area_mm2``.

    Source: mass balance.
    """
    require_positive(flow_mm3_s=flow_mm3_s)
    return flow_mm3_s / bead_area_mm2(width_mm, height_mm)


def filament_area_mm2(diameter_mm: float) -> float:
    """Cross-section of the filament: ``pi D^2 / 4`` [mm2]. Source: plane geometry."""
    require_positive(diameter_mm=diameter_mm)
    return math.pi * diameter_mm**2 / 4


def filament_length_m(mass_g: float, diameter_mm: float, density_g_cm3: float) -> float:
    """Length of a solid filament of this mass: ``m / (rho pi D^2 / 4)`` [m]. Source: mass balance."""
    require_positive(mass_g=mass_g, density_g_cm3=density_g_cm3)
    return mass_g / (density_g_cm3 * filament_area_mm2(diameter_mm))


def solid_spacing_mm(width_mm: float, height_mm: float) -> float:
    """Distance between lines at which the beads fill a layer with no void: ``s = w - h (1 - pi / 4)`` [mm].

    Raises ValueError as ``bead_area_mm2``. Source: area of one bead = spacing times height.
    """
    return bead_area_mm2(width_mm, height_mm) / height_mm


def wall_thickness_mm(beads: int, width_mm: float, height_mm: float) -> float:
    """Thickness of a wall of beads that lie at the solid spacing: ``w + (n - 1) s`` [mm]; less than ``n w``.

    No beads, no wall: 0. Raises ValueError for a negative count. Source: plane geometry.
    """
    if beads < 0:
        raise ValueError(f"a wall cannot have {beads!r} beads")
    return width_mm + (beads - 1) * solid_spacing_mm(width_mm, height_mm) if beads else 0.0
