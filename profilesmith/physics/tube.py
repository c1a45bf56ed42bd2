"""Filament pushed through a long tube: friction in the bends, the length it stores, the slack it has to take up.

Only to compare: ratios between two materials or tubes are sound, millimetres are right to the order of magnitude.
Friction coefficients and the bends of a real tube are seldom known.
"""

from __future__ import annotations

import math

from profilesmith.physics.answer import NotValid
from profilesmith.physics.bead import filament_area_mm2
from profilesmith.physics.inputs import require_not_negative, require_positive

# Compression at the pushing end above which linear elasticity is off by more than a quarter (own estimate: rubber
# theory gives a stress of E (1 / x^2 - x) / 3 at a length ratio x; at x = 0.8 that is 27 % above the linear one).
LARGEST_STRAIN = 0.2


def capstan_ratio(friction: float, bend_rad: float) -> float:
    """Push at the start of a bent tube over the push at its end: ``exp(mu theta)``; bends of all senses add up.

    Soft, thick filament rubs more than this. Source: capstan equation, as in arXiv 2012.13353.
    """
    require_not_negative(friction=friction, bend_rad=bend_rad)
    return math.exp(friction * bend_rad)


def stored_length_mm(
    push_n: float, tube_length_mm: float, modulus_mpa: float, diameter_mm: float, friction: float, bend_rad: float
) -> float | NotValid:
    """How much a push at its end shortens the filament in a tube: ``F L / (E A) (e^m - 1) / m``, m = mu theta [mm].

    Order of magnitude only: a retraction below this (and the slack) does not reach the melt. The tube is bent evenly.
    NotValid when the filament would be pressed together by more than a fifth. Own derivation from the capstan equation.
    """
    require_not_negative(push_n=push_n)
    require_positive(tube_length_mm=tube_length_mm, modulus_mpa=modulus_mpa)
    strain = push_n / (modulus_mpa * filament_area_mm2(diameter_mm))
    if strain * capstan_ratio(friction, bend_rad) > LARGEST_STRAIN:
        return NotValid("the push would press the filament together by more than a fifth")
    m = friction * bend_rad
    return strain * tube_length_mm * (math.expm1(m) / m if m else 1.0)


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
        return NotValid("the filament is thicker than the inside of the tube", "the tube's inner diameter")
    return (tube_inner_diameter_mm - filament_diameter_mm) * bend_rad
