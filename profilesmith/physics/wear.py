"""Wear: how soon a wall is warm right through, and from which stretch a groove in a rubber grows at every bend.

Nothing here says how many bends a printed part stands: layers that are welded to each other are no moulded rubber.
"""

from __future__ import annotations

import math

from profilesmith.physics.inputs import require_positive

_EDGE = 1.1215  # stress at the tip of a shallow groove against one inside (Koiter 1965, from memory)
_TENTH_LEFT = 0.1  # of the step in temperature


def warm_through_s(thickness_mm: float, diffusivity_mm2_s: float) -> float:
    """Until nine tenths of a step on one face have reached the other, which loses no heat [s].

    ``(4 / pi^2) ln(4 / (0.1 pi)) t^2 / a``: first term of the series, exact to a thousandth here. A face that loses
    heat to the air never gets quite so warm. Source: Carslaw and Jaeger 1959, slab with one face insulated [from
    memory].
    """
    require_positive(thickness_mm=thickness_mm, diffusivity_mm2_s=diffusivity_mm2_s)
    return 4 / math.pi**2 * math.log(4 / (_TENTH_LEFT * math.pi)) * thickness_mm**2 / diffusivity_mm2_s


def growth_strain_share(threshold_n_per_mm: float, groove_mm: float, modulus_mpa: float) -> float:
    """Stretch from which a groove grows at each bend: ``sqrt(T0 / (1.1215^2 pi c E))``, T0 the threshold of tearing.

    threshold_n_per_mm: energy for each area of new crack below which none grows (1 N/mm is 1000 J/m2). Linear, small
    stretch, no ozone, a groove that is shallow against the part. Source: Rivlin and Thomas 1953, Lake and Lindley 1965
    [from memory]; the edge factor after Koiter 1965 [from memory].
    """
    require_positive(threshold_n_per_mm=threshold_n_per_mm, groove_mm=groove_mm, modulus_mpa=modulus_mpa)
    return math.sqrt(threshold_n_per_mm / (_EDGE**2 * math.pi * groove_mm * modulus_mpa))
