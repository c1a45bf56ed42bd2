"""Exact layers."""

from fractions import Fraction


def layers_for_same_thickness(layers: int, old_height: Fraction, new_height: Fraction) -> int:
    """ceil(N h / h')."""
    return -((-layers * old_height) // new_height)
