"""How many times as stiff the changed bar is: new over old, as brackets. Only to compare two bars of one outer size."""

from __future__ import annotations

from profilesmith.physics.answer import Bracket, NotValid
from profilesmith.physics.inputs import require_positive
from profilesmith.physics.section import BarSection, bending_bracket, bending_ratio, bending_ratios

# Powers of the core's law from Voigt (1) to bending cells (2). Between these samples the ratio bends so little that the
# bracket is missed by less than one in ten thousand (tested).
_POWERS = tuple(1 + step / 32 for step in range(33))
_NOTHING = NotValid("old-bar-may-carry-nothing")


def same_pattern_bracket(
    old: BarSection, old_density_share: float, new: BarSection, new_density_share: float
) -> Bracket:
    """Bending stiffness, new over old, when both cores follow one and the same law between ``rho`` and ``rho^2``.

    For one pattern and material on both sides, and cores of at least three cells; where the pattern changes, divide the
    two brackets (``Bracket.over``). Densities above zero. Source: Gibson & Ashby 1997 for the powers.
    """
    require_positive(old_density_share=old_density_share, new_density_share=new_density_share)
    before = bending_ratios(old, [old_density_share**power for power in _POWERS])
    after = bending_ratios(new, [new_density_share**power for power in _POWERS])
    ratios = [now / was for was, now in zip(before, after, strict=True)]
    return Bracket(min(ratios), max(ratios))


def shared_core_bracket(old: BarSection, new: BarSection, core_ratio: Bracket) -> Bracket | NotValid:
    """The same where both bars hold one and the same core, whose modulus is only known to lie in a bracket.

    What is the same on both sides cancels: equal bars give 1 exactly. NotValid when the old bar may carry nothing.
    Source: as ``bending_ratio``; the ratio of two lines in the core's modulus runs one way, unequal skins bend it a
    little: with one point in between it is missed by less than half a percent (tested).
    """
    if old == new:
        return Bracket(1.0, 1.0)
    steps = (core_ratio.low, (core_ratio.low + core_ratio.high) / 2, core_ratio.high)
    before = bending_ratios(old, steps)
    if before[0] <= 0:
        return _NOTHING
    ratios = [now / was for was, now in zip(before, bending_ratios(new, steps), strict=True)]
    return Bracket(min(ratios), max(ratios))


def ordered_cores_bracket(
    old: BarSection, old_core_ratio: Bracket, new: BarSection, new_core_ratio: Bracket
) -> Bracket | NotValid:
    """The same for two cores of one pattern, of which the one with more plastic is the stiffer one.

    Brackets as of ``core_modulus_bracket``: the denser one ends higher. NotValid when the old bar may carry nothing.
    Source: as ``bending_ratio``, which only grows with the core's modulus.
    """
    if bending_ratio(old, old_core_ratio.low) <= 0:
        return _NOTHING
    apart = bending_bracket(new, new_core_ratio).over(bending_bracket(old, old_core_ratio))
    softer, low, high = (
        new_core_ratio.high < old_core_ratio.high,
        max(old_core_ratio.low, new_core_ratio.low),
        min(old_core_ratio.high, new_core_ratio.high),
    )
    both = shared_core_bracket(old, new, Bracket(low, high)) if low <= high else apart
    if isinstance(both, NotValid):
        return both
    return Bracket(min(apart.low, both.low), both.high) if softer else Bracket(both.low, max(apart.high, both.high))


def solid_thickness_ratio(old_modulus: Bracket, new_modulus: Bracket) -> Bracket:
    """Thickness, new over old, of two solid sheets that bend alike: ``(E / E')^(1/3)``. Source: ``E t^3``, plate
    theory.

    The moduli may be in any unit, both in the same.
    """
    ratio = old_modulus.over(new_modulus)
    return Bracket(ratio.low ** (1 / 3), ratio.high ** (1 / 3))
