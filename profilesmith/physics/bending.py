"""Strain of a part, and of a coating on it, when it is bent to a radius. R is always the INNER radius.

Pure bending, the middle of the thickness keeps its length. Says nothing about adhesion, ageing or many bends.
"""

from __future__ import annotations

from profilesmith.physics.answer import Bracket, NotValid
from profilesmith.physics.inputs import require_not_negative, require_positive

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
