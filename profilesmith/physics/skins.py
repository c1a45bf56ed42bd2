"""Closing layers in whole numbers, exactly. Heights are ``Fraction`` or ``int``, all in one unit (mm or any other).

Floats are refused with TypeError: ``math.ceil(3 * 0.2 / 0.2)`` is 4, one layer too many. Make fractions from the text
of the number. Source: arithmetic; that its thickness keeps a skin closed is common practice, no source.
"""

from __future__ import annotations

import math
from fractions import Fraction


def layers_for_same_thickness(layers: int, old_height: Fraction, new_height: Fraction) -> int:
    """Fewest layers of the new height that are at least as thick as before: ``ceil(N h / h')``.

    Raises ValueError for a negative count or a height that is not above zero, TypeError for floats.
    """
    _require_heights(old_height=old_height, new_height=new_height)
    return math.ceil(_count(layers) * Fraction(old_height) / Fraction(new_height))


def layers_for_thickness(thickness: Fraction, height: Fraction, first_height: Fraction | None = None) -> int:
    """Fewest layers that are at least this thick: ``ceil(t / h)``, or ``1 + ceil((t - h1) / h)`` with a first layer.

    No thickness needs no layer. ValueError for a thickness below or a height not above zero, TypeError for floats.
    """
    first = height if first_height is None else first_height
    _require_heights(height=height, first_height=first)
    _require_exact(thickness=thickness)
    if thickness < 0:
        raise ValueError(f"thickness must not be below zero, not {thickness}")
    if thickness == 0:
        return 0
    return 1 + max(0, math.ceil((Fraction(thickness) - first) / height))


def skin_thickness(layers: int, height: Fraction, first_height: Fraction | None = None) -> Fraction:
    """Thickness of a skin: ``N h``, or ``h1 + (N - 1) h`` where the first layer is one of them; in the heights' unit.

    Raises ValueError and TypeError as ``layers_for_same_thickness``.
    """
    first = height if first_height is None else first_height
    _require_heights(height=height, first_height=first)
    thickness = first + height * (layers - 1) if _count(layers) else 0
    return thickness if isinstance(thickness, Fraction) else Fraction(thickness)


def _count(layers: int) -> int:
    if not isinstance(layers, int):
        raise TypeError(f"layers are counted in whole numbers, not {layers!r}")
    if layers < 0:
        raise ValueError(f"there are no {layers} layers")
    return layers


def _require_heights(**heights: Fraction) -> None:
    _require_exact(**heights)
    for name, height in heights.items():
        if height.numerator <= 0:
            raise ValueError(f"{name} must be above zero, not {height}")


def _require_exact(**values: Fraction) -> None:
    for name, value in values.items():
        if not isinstance(value, int | Fraction):
            raise TypeError(f"{name} must be a Fraction or an int, not {value!r}")
