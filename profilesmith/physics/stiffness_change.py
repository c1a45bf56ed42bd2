"""How many times as stiff the changed bar is: new over old, as brackets. Only to compare two bars of one outer size."""

from __future__ import annotations

from profilesmith.physics.answer import Bracket
from profilesmith.physics.inputs import require_positive
from profilesmith.physics.section import BarSection, bending_ratio

# Powers of the core's law from Voigt (1) to bending cells (2). Between these samples the ratio bends so little that the
# bracket is missed by less than one in ten thousand (tested).
_POWERS = tuple(1 + step / 32 for step in range(33))


def same_pattern_bracket(
    old: BarSection, old_density_share: float, new: BarSection, new_density_share: float
) -> Bracket:
    """Bending stiffness, new over old, when both cores follow one and the same law between ``rho`` and ``rho^2``.

    For one pattern and material on both sides, and cores of at least three cells; where the pattern changes, divide the
    two brackets (``Bracket.over``). Densities above zero. Source: Gibson & Ashby 1997 for the powers.
    """
    require_positive(old_density_share=old_density_share, new_density_share=new_density_share)
    ratios = [
        bending_ratio(new, new_density_share**power) / bending_ratio(old, old_density_share**power) for power in _POWERS
    ]
    return Bracket(min(ratios), max(ratios))


def largest_loss_share(old: BarSection, old_density_share: float, new: BarSection) -> float:
    """The most bending stiffness that can be lost, whatever the new core: 0.14 is 14 % softer; 0 when none is lost.

    Old core at its stiffest (Voigt), new core carrying nothing. Needs no law and no cell size. Own derivation.
    """
    require_positive(old_density_share=old_density_share)
    return max(0.0, 1 - bending_ratio(new, 0.0) / bending_ratio(old, old_density_share))


def with_material(stiffness: Bracket, old_modulus: Bracket, new_modulus: Bracket) -> Bracket:
    """The same for another plastic: ``(E' / E) (EI' / EI)``. The moduli may be in any unit, both in the same.

    The stiffness bracket must be new over old for one and the same plastic. Source: linear elasticity.
    """
    material = new_modulus.over(old_modulus)
    return Bracket(stiffness.low * material.low, stiffness.high * material.high)
