"""Refuses numbers that describe nothing, such as a negative length. Raises ValueError with the parameter's name.

A function that a curve asks a hundred times asks here only where something is wrong: to name its parameters takes as
long as its formula.
"""

from __future__ import annotations

from math import inf


def require_positive(**values: float) -> None:
    """Every value must be finite and above zero."""
    for name, value in values.items():
        if not 0 < value < inf:
            raise ValueError(f"{name} must be a finite number above zero, not {value!r}")


def require_not_negative(**values: float) -> None:
    """Every value must be finite and not below zero."""
    for name, value in values.items():
        if not 0 <= value < inf:
            raise ValueError(f"{name} must be a finite number, zero or above, not {value!r}")


def require_share(**values: float) -> None:
    """Every value must lie from 0 to 1: a share is 0.15, not 15 %."""
    for name, value in values.items():
        if not 0 <= value <= 1:
            raise ValueError(f"{name} is a share and must lie from 0 to 1, not {value!r}")
