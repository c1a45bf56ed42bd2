"""Filament pushed across an unguided gap: when it buckles. Only to compare materials, gaps and diameters.

The strand is taken as an Euler column. A real gap also bends, grips and rubs it, so the newtons are of no use alone.
Source: Timoshenko & Gere 1961, Theory of Elastic Stability [from memory].
"""

from __future__ import annotations

import math

from profilesmith.physics.inputs import require_positive

# End fixings: the effective length over the gap.
HINGED, CLAMPED = 1.0, 0.5
# Above this share of the modulus the column is too stubby for the theory (length below some 2.5 diameters).
LARGEST_STRAIN = 0.1


def strand_second_moment_mm4(diameter_mm: float) -> float:
    """Second moment of area of a round strand: ``pi d^4 / 64`` [mm4]. Source: handbook geometry."""
    require_positive(diameter_mm=diameter_mm)
    return math.pi * diameter_mm**4 / 64


def buckling_strain_share(diameter_mm: float, gap_mm: float, end_factor: float = HINGED) -> float:
    """Strain at which the strand buckles, the same for all materials: ``pi^2 d^2 / (16 (K L)^2)``."""
    require_positive(diameter_mm=diameter_mm, gap_mm=gap_mm, end_factor=end_factor)
    return (math.pi * diameter_mm / (4 * end_factor * gap_mm)) ** 2


def buckling_load_ratio(
    old_modulus_mpa: float, old_diameter_mm: float, new_modulus_mpa: float, new_diameter_mm: float
) -> float:
    """Buckling load, new over old, in one and the same gap: ``E' d'^4 / (E d^4)``. Ranks materials; judges none.

    An old material that is not limited by buckling was even further from it. Source: see the module.
    """
    require_positive(old_modulus_mpa=old_modulus_mpa, new_modulus_mpa=new_modulus_mpa)
    old = old_modulus_mpa * strand_second_moment_mm4(old_diameter_mm)
    return new_modulus_mpa * strand_second_moment_mm4(new_diameter_mm) / old
