"""Filament on its way: what a long tube stores of a pull, and when an unguided gap lets it buckle. Only to compare.

Stored lengths only compare: the friction and the bends of a real tube are seldom known, but drop out of a ratio.
Across a gap the strand is taken as an Euler column. A real gap also bends, grips and rubs it, so the newtons are of no
use alone. Source: Timoshenko & Gere 1961, Theory of Elastic Stability [from memory].
"""

from __future__ import annotations

import math

from profilesmith.physics.answer import NotValid, require_not_negative, require_positive
from profilesmith.physics.bead import filament_area_mm2


def stored_length_ratio(
    old_modulus_mpa: float, old_diameter_mm: float, new_modulus_mpa: float, new_diameter_mm: float
) -> float:
    """Stored length, new over old, in one tube at one push: ``E A / (E' A')``. The part that can be relied on.

    Source: linear elasticity; friction taken as the same.
    """
    require_positive(old_modulus_mpa=old_modulus_mpa, new_modulus_mpa=new_modulus_mpa)
    old = old_modulus_mpa * filament_area_mm2(old_diameter_mm)
    return old / (new_modulus_mpa * filament_area_mm2(new_diameter_mm))


def slack_mm(tube_inner_diameter_mm: float, filament_diameter_mm: float, bend_rad: float) -> float | NotValid:
    """Filament that moves before the far end does, when push turns into pull: ``(Dt - Df) theta`` [mm].

    The filament changes from the outer to the inner side of each bend. NotValid when it does not fit into the tube.
    Own derivation: difference of two arcs.
    """
    require_positive(tube_inner_diameter_mm=tube_inner_diameter_mm, filament_diameter_mm=filament_diameter_mm)
    require_not_negative(bend_rad=bend_rad)
    if filament_diameter_mm > tube_inner_diameter_mm:
        return NotValid("filament-wider-than-tube")
    return (tube_inner_diameter_mm - filament_diameter_mm) * bend_rad


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
