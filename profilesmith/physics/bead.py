"""Bead geometry."""

import math


def bead_area_mm2(width_mm: float, height_mm: float) -> float:
    """Stadium area."""
    if not 0 < height_mm <= width_mm:
        raise ValueError("width must be at least height, and both positive")
    return (width_mm - height_mm) * height_mm + math.pi * height_mm**2 / 4
