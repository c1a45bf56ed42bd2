"""How heat gets into the filament's middle: what bounds the flow by melting alone. Only to compare.

A round strand whose outside takes the hot end's temperature at once. Good for "twice the heated length, about twice the
flow" and "soft and rigid filament melt about equally fast"; a soft filament's own limit is that it buckles or slips.
Sources: Carslaw & Jaeger, Conduction of Heat in Solids; Crank 1975, The Mathematics of Diffusion; a model of the same
kind: Luo, Wang, Migler & Seppala 2020, Additive Manufacturing, doi 10.1016/j.addma.2019.101019.
"""

from __future__ import annotations

import math

from profilesmith.physics.answer import NotValid
from profilesmith.physics.bessel import BESSEL_ZEROS
from profilesmith.physics.inputs import require_positive

# First term of the series for the middle of a cylinder: 2 / (j J1(j)) with J1(j) = 0.5191475 at the first zero j.
_FIRST_COEFFICIENT = 1.6019746697
_LARGEST_LAG = 0.5


def fourier_number_at_lag(lag_share: float) -> float | NotValid:
    """Fourier number ``alpha t / R^2`` at which the middle still lacks this share of its rise.

    ``ln(1.602 / lag) / 5.783``. NotValid above a lag of one half, where one term of the series is not enough (below it:
    the lag is right within half a percent of itself).
    """
    require_positive(lag_share=lag_share)
    if lag_share > _LARGEST_LAG:
        return NotValid("the series is cut after its first term, which is too coarse for such a cold middle")
    return math.log(_FIRST_COEFFICIENT / lag_share) / BESSEL_ZEROS[0] ** 2


def heating_time_s(radius_mm: float, diffusivity_mm2_s: float, lag_share: float = 0.1) -> float | NotValid:
    """Time until the middle lacks only this share of its rise: ``Fo R^2 / alpha`` [s]; only to compare. As above."""
    require_positive(radius_mm=radius_mm, diffusivity_mm2_s=diffusivity_mm2_s)
    number = fourier_number_at_lag(lag_share)
    return number if isinstance(number, NotValid) else number * radius_mm**2 / diffusivity_mm2_s


def melting_flow_ratio(
    old_heated_length_mm: float, old_diffusivity_mm2_s: float, new_heated_length_mm: float, new_diffusivity_mm2_s: float
) -> float:
    """Flow bound by melting, new over old: ``alpha' L' / (alpha L)``. The filament's diameter drops out.

    Own derivation: the flow ``pi R^2 L / t`` with ``t = Fo R^2 / alpha`` is ``pi alpha L / Fo``.
    """
    require_positive(old_heated_length_mm=old_heated_length_mm, new_heated_length_mm=new_heated_length_mm)
    require_positive(old_diffusivity_mm2_s=old_diffusivity_mm2_s, new_diffusivity_mm2_s=new_diffusivity_mm2_s)
    return new_diffusivity_mm2_s * new_heated_length_mm / (old_diffusivity_mm2_s * old_heated_length_mm)


def thermal_diffusivity_mm2_s(conductivity_w_m_k: float, heat_j_kg_k: float, density_g_cm3: float) -> float:
    """``alpha = k / (rho cp)`` [mm2/s]; k in W/(m K), cp in J/(kg K). Source: definition."""
    require_positive(conductivity_w_m_k=conductivity_w_m_k, heat_j_kg_k=heat_j_kg_k, density_g_cm3=density_g_cm3)
    return conductivity_w_m_k / (density_g_cm3 * 1000 * heat_j_kg_k) * 1e6
