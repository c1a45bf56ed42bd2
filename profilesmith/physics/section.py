"""Stiffness and mass of a bar with walls, skins and a sparse core, as ratios to the solid bar of the same outside; and
how many times as stiff a changed bar is: new over old, as brackets, only to compare two bars of one outer size.

The core is a softer material of ratio r = E* / Es inside a rectangle ("transformed section"). Linear, small strain, no
difference between directions of the layers, no voids, no buckling of walls; shear of the core is left out (the side
walls carry it). Sources: parallel-axis theorem; Allen 1969, Analysis and Design of Structural Sandwich Panels.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import inf

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.physics.answer import Bracket, NotValid, require_not_negative, require_positive, require_share

# Lengths in thicknesses above which shear hardly counts (handbook rule, [from memory]).
SLENDER = 8.0


class _Sizes(NamedTuple):
    width_mm: float
    height_mm: float
    side_wall_mm: float
    bottom_skin_mm: float
    top_skin_mm: float


class BarSection(_Sizes):
    """A bar's cross-section [mm]: outer width and height, side walls, bottom and top skins.

    Walls or skins that meet leave no core. Raises ValueError for sizes that are not above zero.
    """

    __slots__ = ()

    def __new__(
        cls, width_mm: float, height_mm: float, side_wall_mm: float, bottom_skin_mm: float, top_skin_mm: float
    ) -> BarSection:
        outside = 0 < width_mm < inf and 0 < height_mm < inf
        if not (outside and 0 <= side_wall_mm < inf and 0 <= bottom_skin_mm < inf and 0 <= top_skin_mm < inf):
            require_positive(width_mm=width_mm, height_mm=height_mm)
            require_not_negative(side_wall_mm=side_wall_mm, bottom_skin_mm=bottom_skin_mm, top_skin_mm=top_skin_mm)
        return tuple.__new__(cls, (width_mm, height_mm, side_wall_mm, bottom_skin_mm, top_skin_mm))

    @property
    def core_width_mm(self) -> float:
        return max(0.0, self.width_mm - 2 * self.side_wall_mm)

    @property
    def core_height_mm(self) -> float:
        return max(0.0, self.height_mm - self.bottom_skin_mm - self.top_skin_mm)

    @property
    def core_share(self) -> float:
        """The core's share of the cross-section."""
        return self.core_width_mm * self.core_height_mm / (self.width_mm * self.height_mm)


def stretching_ratio(section: BarSection, core_ratio: float) -> float:
    """EA over that of the solid bar: ``1 - (bi Hi) / (b H) (1 - r)``. Source: rule of mixtures."""
    require_share(core_ratio=core_ratio)
    return 1 - section.core_share * (1 - core_ratio)


def mass_ratio(section: BarSection, density_share: float) -> float:
    """Mass over that of the solid bar: as ``stretching_ratio`` with the density in place of the modulus."""
    require_share(density_share=density_share)
    return stretching_ratio(section, density_share)


def bending_ratio(section: BarSection, core_ratio: float) -> float:
    """EI over that of the solid bar, bent about the axis of its width (the skins stretch and shorten).

    Equal skins: ``1 - (bi Hi^3) / (b H^3) (1 - r)``. Unequal skins shift the neutral axis, which lowers it:
    ``I = b H^3 / 12 - (1 - r) bi Hi (Hi^2 / 12 + e^2) - A c^2`` with the core ``e`` off the middle and the axis ``c``.
    Source: parallel-axis theorem.
    """
    return bending_ratios(section, (core_ratio,))[0]


def bending_ratios(section: BarSection, core_ratios: Iterable[float]) -> list[float]:
    """``bending_ratio`` of one section with several cores, as a curve has them."""
    height, core_height, core_width = section.height_mm, section.core_height_mm, section.core_width_mm
    whole, solid = section.width_mm * height, section.width_mm * height * height**2 / 12
    core_off = (section.bottom_skin_mm - section.top_skin_mm) / 2
    own = core_height**2 / 12 + core_off**2
    ratios = []
    for core_ratio in core_ratios:
        if not 0 <= core_ratio <= 1:
            require_share(core_ratio=core_ratio)
        missing = (1 - core_ratio) * core_width * core_height
        area = whole - missing
        if area == 0:
            ratios.append(0.0)
            continue
        lost = missing * own + area * (-missing * core_off / area) ** 2
        ratios.append(max(0.0, 1 - lost / solid))
    return ratios


def solid_second_moment_mm4(section: BarSection) -> float:
    """Second moment of area of the solid bar: ``b H^3 / 12`` [mm4]. Source: handbook geometry."""
    return section.width_mm * section.height_mm**3 / 12


def bending_bracket(section: BarSection, core: Bracket) -> Bracket:
    """``bending_ratio`` at both ends of the core's modulus: it only grows with it."""
    return Bracket(*bending_ratios(section, core))


def tip_stiffness_n_per_mm(modulus_mpa: float, second_moment_mm4: float, free_length_mm: float) -> float:
    """Force per deflection at the free end of a strip that is held at the other: ``3 E I / L^3`` [N/mm].

    Deflections up to a tenth of the length, slender strip (``SLENDER``), no shear. Source: handbook formula (Gere).
    """
    require_positive(modulus_mpa=modulus_mpa, second_moment_mm4=second_moment_mm4, free_length_mm=free_length_mm)
    return 3 * modulus_mpa * second_moment_mm4 / free_length_mm**3


# Powers of the core's law from Voigt (1) to bending cells (2). Between these samples the ratio bends so little that the
# bracket is missed by less than one in ten thousand (tested).
_POWERS = tuple(1 + step / 32 for step in range(33))
_STEPS = 16
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
    little: between so many steps it is missed by less than one in a thousand (tested).
    """
    if old == new:
        return Bracket(1.0, 1.0)
    step = (core_ratio.high - core_ratio.low) / _STEPS
    steps = (*(core_ratio.low + step * number for number in range(_STEPS)), core_ratio.high)
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
