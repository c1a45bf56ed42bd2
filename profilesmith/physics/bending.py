"""Strain of a part, and of a coating on it, when it is bent to a radius; from which stretch a groove in a rubber grows
at every bend; how soon a wall is warm right through. R is always the INNER radius.

Pure bending, the middle of the thickness keeps its length. Says nothing about adhesion or ageing, nor how many bends a
printed part stands: layers that are welded to each other are no moulded rubber.
"""

from __future__ import annotations

import math

from profilesmith.physics.answer import Bracket, NotValid, require_not_negative, require_positive

_TOO_SHARP = NotValid("bend-too-sharp")


def outer_strain_share(thickness_mm: float, inner_radius_mm: float) -> float | NotValid:
    """Strain of the outer fibre: ``t / (2 Ri + t)`` (0.05 is 5 %).

    NotValid below an inner radius of one thickness (limit [from memory]). ``t / (2 Ri)``, often seen, is up to half as
    much again. Source: geometry of bending, handbook formula.
    """
    require_positive(thickness_mm=thickness_mm, inner_radius_mm=inner_radius_mm)
    if inner_radius_mm < thickness_mm:
        return _TOO_SHARP
    return thickness_mm / (2 * inner_radius_mm + thickness_mm)


def coating_strain_bracket(thickness_mm: float, coating_mm: float, inner_radius_mm: float) -> Bracket | NotValid:
    """Strain of the outside of a coating ``c`` thick: from ``(t / 2 + c) / (Ri + t / 2)`` to ``(t + 2 c) / (2 Ri)``.

    Low: pure bending. High: ``mandrel_elongation_share``, which is what a standard's measured table follows; compare a
    coating's stated elongation with this end. NotValid as ``outer_strain_share``. Source: as these two.
    """
    require_positive(thickness_mm=thickness_mm, inner_radius_mm=inner_radius_mm)
    require_not_negative(coating_mm=coating_mm)
    if inner_radius_mm < thickness_mm:
        return _TOO_SHARP
    low = (thickness_mm / 2 + coating_mm) / (inner_radius_mm + thickness_mm / 2)
    return Bracket(low, mandrel_elongation_share(thickness_mm, coating_mm, 2 * inner_radius_mm))


def mandrel_elongation_share(thickness_mm: float, coating_mm: float, mandrel_diameter_mm: float) -> float:
    """Elongation of a coating on a sheet bent over a mandrel: ``(t + 2 c) / D``.

    Within 6 % of the table in ASTM D522/D522M method B (25 um coating on 0.8 mm steel, mandrels of 3 to 25 mm); outside
    that range not checked. Own fit to that table.
    """
    require_positive(thickness_mm=thickness_mm, mandrel_diameter_mm=mandrel_diameter_mm)
    require_not_negative(coating_mm=coating_mm)
    return (thickness_mm + 2 * coating_mm) / mandrel_diameter_mm


def coated_radius_bracket_mm(thickness_mm: float, coating_mm: float, strain_share: float) -> Bracket | NotValid:
    """Sharpest bend at which a coating's outside stays within a strain: ``(t/2 + c)/e - t/2`` to ``(t/2 + c)/e`` [mm].

    The inverse of ``coating_strain_bracket``: pure bending, and the form that a standard's measured table follows.
    NotValid where that is sharper than the part is thick. Source: as there.
    """
    require_positive(thickness_mm=thickness_mm, strain_share=strain_share)
    require_not_negative(coating_mm=coating_mm)
    high = (thickness_mm / 2 + coating_mm) / strain_share
    low = high - thickness_mm / 2
    return Bracket(low, high) if low > thickness_mm else _TOO_SHARP


def smallest_inner_radius_mm(thickness_mm: float, strain_share: float) -> float | NotValid:
    """Sharpest bend that keeps the outer fibre within a strain: ``t (1 / eps - 1) / 2`` [mm].

    NotValid for strains above a third, which lead to bends sharper than the thickness. Source: geometry, as above.
    """
    require_positive(thickness_mm=thickness_mm, strain_share=strain_share)
    if strain_share > 1 / 3:
        return _TOO_SHARP
    return thickness_mm * (1 / strain_share - 1) / 2


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
