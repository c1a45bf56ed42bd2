"""Filament in a long tube: how much more of a pull one stores than another, and the play that it has to take up.

Stored lengths only compare: the friction and the bends of a real tube are seldom known, but drop out of a ratio.
"""

from __future__ import annotations

from profilesmith.physics.answer import NotValid
from profilesmith.physics.bead import filament_area_mm2
from profilesmith.physics.inputs import require_not_negative, require_positive


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
