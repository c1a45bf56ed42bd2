"""How far apart the lines of infill and supports lie at a density, and back.

The density is the covered share of one layer with beads taken as rectangles; the plastic in it is less, see
``filled_share``. Source: plane geometry; that density means this is common practice, no source.
"""

from __future__ import annotations

from profilesmith.physics.inputs import require_positive, require_share


def line_spacing_mm(bead_width_mm: float, density_share: float, directions: int = 1) -> float:
    """Distance from line to line of one direction: ``s = n w / rho`` [mm].

    directions: how many sets of lines share one layer: 1 lines, 2 a crossed grid, 3 triangles. Where the direction
    changes from layer to layer, it is 1. ValueError for a density that is not above 0 and up to 1.
    """
    _require(bead_width_mm, directions)
    require_positive(density_share=density_share)
    require_share(density_share=density_share)
    return directions * bead_width_mm / density_share


def density_at_spacing_share(bead_width_mm: float, spacing_mm: float, directions: int = 1) -> float:
    """Density at which the lines lie this far apart: ``rho = n w / s``, at most 1 (lines side by side)."""
    _require(bead_width_mm, directions)
    require_positive(spacing_mm=spacing_mm)
    return min(1.0, directions * bead_width_mm / spacing_mm)


def _require(bead_width_mm: float, directions: int) -> None:
    require_positive(bead_width_mm=bead_width_mm)
    if directions not in (1, 2, 3):
        raise ValueError(f"lines of a layer run in 1, 2 or 3 directions, not {directions!r}")
