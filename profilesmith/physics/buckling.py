"""Filament pushed across an unguided gap: when it buckles. Only to compare materials, gaps and diameters.

The strand is taken as an Euler column. A real gap also bends, grips and rubs it, so the newtons are of no use alone.
Source: Timoshenko & Gere 1961, Theory of Elastic Stability [from memory].
"""

from __future__ import annotations

import math

from profilesmith.physics.answer import NotValid
from profilesmith.physics.inputs import require_positive

# End fixings: the effective length over the gap.
HINGED, CLAMPED = 1.0, 0.5
# Above this share of the modulus the column is too stubby for the theory (length below some 2.5 diameters).
LARGEST_STRAIN = 0.1


def strand_second_moment_mm4(diameter_mm: float) -> float:
    """Second moment of area of a round strand: ``pi d^4 / 64`` [mm4]. Source: handbook geometry."""
    require_positive(diameter_mm=diameter_mm)
    return math.pi * diameter_mm**4 / 64


def ideal_column_load_n(modulus_mpa: float, second_moment_mm4: float, effective_length_mm: float) -> float:
    """Load at which an ideally slender elastic column buckles: ``pi^2 E I / Le^2`` [N].

    True of the ideal column only; for a strand use ``gap_load_n``, which knows where that ends. Source: see the module.
    """
    require_positive(modulus_mpa=modulus_mpa, second_moment_mm4=second_moment_mm4)
    require_positive(effective_length_mm=effective_length_mm)
    return math.pi**2 * modulus_mpa * second_moment_mm4 / effective_length_mm**2


def buckling_strain_share(diameter_mm: float, gap_mm: float, end_factor: float = HINGED) -> float:
    """Strain at which the strand buckles, the same for all materials: ``pi^2 d^2 / (16 (K L)^2)``."""
    require_positive(diameter_mm=diameter_mm, gap_mm=gap_mm, end_factor=end_factor)
    return (math.pi * diameter_mm / (4 * end_factor * gap_mm)) ** 2


def gap_load_n(
    modulus_mpa: float, diameter_mm: float, gap_mm: float, end_factor: float = HINGED, yield_mpa: float | None = None
) -> float | NotValid:
    """Load at which a strand buckles in a gap [N]; only to compare.

    NotValid for gaps too short for the theory, and, where ``yield_mpa`` is given, for strands that are crushed or slip
    before they buckle (rigid PLA in a short gap). Give it for every rigid plastic; an elastomer has none.
    """
    strain = buckling_strain_share(diameter_mm, gap_mm, end_factor)
    if strain > LARGEST_STRAIN:
        return NotValid("the gap is so short that the strand is squashed rather than buckled")
    if yield_mpa is not None and strain * modulus_mpa > yield_mpa:
        return NotValid("a strand this rigid yields or slips before it buckles, so buckling is not its limit")
    return ideal_column_load_n(modulus_mpa, strand_second_moment_mm4(diameter_mm), end_factor * gap_mm)


def buckling_load_ratio(
    old_modulus_mpa: float, old_diameter_mm: float, new_modulus_mpa: float, new_diameter_mm: float
) -> float:
    """Buckling load, new over old, in one and the same gap: ``E' d'^4 / (E d^4)``. Ranks materials; judges none.

    An old material that is not limited by buckling was even further from it. Source: see the module.
    """
    require_positive(old_modulus_mpa=old_modulus_mpa, new_modulus_mpa=new_modulus_mpa)
    old = old_modulus_mpa * strand_second_moment_mm4(old_diameter_mm)
    return new_modulus_mpa * strand_second_moment_mm4(new_diameter_mm) / old


def push_index_per_s(modulus_mpa: float, viscosity_pa_s: float) -> float:
    """Modulus over the melt's viscosity [1/s]: the higher, the less a strand buckles against its own melt.

    Only to rank: PLA far above 95A, 95A above 85A. Source: Venkataraman et al. 2000, Rapid Prototyping J. 6(4):244-252
    (their threshold of 3e5 to 5e5 1/s, for one machine, is [from memory] and is not used).
    """
    require_positive(modulus_mpa=modulus_mpa, viscosity_pa_s=viscosity_pa_s)
    return modulus_mpa * 1e6 / viscosity_pa_s


def needed_push_index_per_s(
    flow_mm3_s: float,
    nozzle_radius_mm: float,
    nozzle_length_mm: float,
    filament_radius_mm: float,
    gap_mm: float,
    end_factor: float = CLAMPED,
) -> float:
    """Push index at which a strand just buckles against a plain round nozzle [1/s].

    ``32 K^2 Q l (L / R)^2 / (pi^3 r^4)``, with K the end factor.

    Only to compare two nozzles, gaps or flows: the melting zone, backflow and friction, all left out, raise it several
    times. Own derivation (Euler's stress equals Poiseuille's pressure), of the same form as Venkataraman et al. 2000.
    """
    require_positive(flow_mm3_s=flow_mm3_s, nozzle_radius_mm=nozzle_radius_mm, nozzle_length_mm=nozzle_length_mm)
    require_positive(filament_radius_mm=filament_radius_mm, gap_mm=gap_mm, end_factor=end_factor)
    slenderness = end_factor * gap_mm / filament_radius_mm
    return 32 * slenderness**2 * flow_mm3_s * nozzle_length_mm / (math.pi**3 * nozzle_radius_mm**4)
