"""Sparse infill: how far apart its lines lie, how stiff it is, and how far a thin face above it gives.

The density is the covered share of one layer with beads taken as rectangles; the plastic in it is less, see
``filled_share``. Source: plane geometry; that density means this is common practice, no source.

Its stiffness is a ratio to the solid plastic: E* / Es for a density. No single law holds for all patterns and sizes, so
``core_modulus_bracket`` is the one to show: from a law of bending cell walls up to the stiffest that this much plastic
can be (Voigt). It refuses cores that are too thin for an average. All: linear, small strain, no voids in the bead,
perfect bonds.

A face spans the largest circle that fits between the lines. The truth of a dent lies between a clamped square and a
clamped strip of that span. Sources: Timoshenko & Woinowsky-Krieger 1959, Theory of Plates and Shells, for both.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

from profilesmith.physics.answer import Bracket, NotValid, require_positive, require_share


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


# Low ends for ``core_modulus_bracket``: the modulus falls with this power of the density where cell walls bend.
CELLS_IN_SPACE = 2.0  # gyroid, cubic: Gibson & Ashby 1997, open cells
HEXAGONS_ACROSS = 3.0  # upright hexagons loaded in the layer's plane: a little below 1.5 rho^3
NO_LAW = math.inf  # lines, or a grid loaded askew: at the low end the core carries nothing

FEWEST_CELLS = 3.0
# Area of the gyroid surface in a cubic cell of edge 1 [from memory: 3.0915; 3.088 found again numerically].
GYROID_AREA = 3.0915
_TOO_FEW = NotValid("too-few-cells")


def core_modulus_bracket(
    density_share: float, core_thickness_mm: float, cell_mm: float, low_power: float = CELLS_IN_SPACE
) -> Bracket | NotValid:
    """E*/Es from ``rho^n`` (n = ``low_power``) up to ``rho`` (Voigt 1889: no core of this density is stiffer).

    NotValid when fewer than three cells fit into the core's thickness: there is no average then, only the walls count.
    A full core is solid, an empty one nothing, at any cell size. Source of the powers: Gibson & Ashby 1997, Cellular
    Solids, 2nd ed.; the limit of three to five cells is common practice in testing cellular solids, no source.
    """
    stiffest = voigt_ratio(density_share)
    if density_share in (0, 1):
        return Bracket(stiffest, stiffest)
    if cell_count(core_thickness_mm, cell_mm) < FEWEST_CELLS:
        return _TOO_FEW
    return Bracket(stiffest**low_power, stiffest)


def cell_count(core_thickness_mm: float, cell_mm: float) -> float:
    """How many cells fit through the core (a core of no thickness has none). Source: arithmetic."""
    if not 0 < cell_mm < math.inf:
        require_positive(cell_mm=cell_mm)
    return max(0.0, core_thickness_mm) / cell_mm


def gyroid_cell_mm(bead_width_mm: float, density_share: float) -> float:
    """Edge of the cubic gyroid cell whose sheet is one bead thick: ``3.0915 w / rho`` [mm].

    For grids of lines the cell is ``spacing.line_spacing_mm``. Source: own derivation from the area of the surface.
    """
    if not (0 < bead_width_mm < math.inf and 0 < density_share <= 1):
        require_positive(bead_width_mm=bead_width_mm, density_share=density_share)
        require_share(density_share=density_share)
    return GYROID_AREA * bead_width_mm / density_share


def voigt_ratio(density_share: float) -> float:
    """``rho``: plastic that runs straight through along the load, the stiffest case. Source: Voigt 1889."""
    if not 0 <= density_share <= 1:
        require_share(density_share=density_share)
    return float(density_share)


# Free span times density over bead width. Lines that all run one way leave one bead's share of a strip; crossed ones
# cells with a circle twice as wide. Own geometry; the tests draw each pattern and look for its largest circle.
SPANS: Mapping[str, Bracket] = {
    "lines": Bracket(1.0, 1.0),
    "concentric": Bracket(1.0, 1.0),
    "grid": Bracket(2.0, 2.0),
    "triangles": Bracket(2.0, 2.0),
    "hexagons": Bracket(2.0, 2.0),
    "gyroid": Bracket(1.55, 1.68),
    "cubic": Bracket(2.0, 3.0),
}
ANY_SPAN = Bracket(1.0, 3.0)
_SQUARE = 0.00126  # of a clamped square, Timoshenko & Woinowsky-Krieger 1959, table 35
_STRIP = 1 / 384


def free_span_mm(pattern: str, bead_width_mm: float, density_share: float) -> Bracket:
    """Widest free span between the lines of a pattern: ``k w / rho`` [mm], a bracket where the pattern is not known.

    ValueError for a density that is not above 0 and up to 1. A bead's own width is not taken off.
    """
    require_positive(bead_width_mm=bead_width_mm, density_share=density_share)
    require_share(density_share=density_share)
    spans = SPANS.get(pattern, ANY_SPAN)
    return Bracket(spans.low * bead_width_mm / density_share, spans.high * bead_width_mm / density_share)


def plate_stiffness_n_mm(modulus_mpa: float, thickness_mm: float, poisson: float) -> float:
    """Bending stiffness of a plate per width: ``E t^3 / (12 (1 - nu^2))`` [N mm]. Source: plate theory."""
    require_positive(modulus_mpa=modulus_mpa, thickness_mm=thickness_mm)
    if not 0 <= poisson <= 0.5:
        raise ValueError(f"Poisson's ratio of the plastic lies from 0 to 0.5, not {poisson!r}")
    return modulus_mpa * thickness_mm**3 / (12 * (1 - poisson**2))


def face_dent_mm(
    pressure_mpa: float, span_mm: float, modulus_mpa: float, thickness_mm: float, poisson: float = 0.5
) -> Bracket | NotValid:
    """Dent of a clamped face: from a square ``0.00126 p s^4 / D`` to a strip ``p s^4 / (384 D)`` [mm].

    NotValid where even the square's is more than half the face's thickness: then it stretches, and will dent.
    """
    require_positive(pressure_mpa=pressure_mpa, span_mm=span_mm)
    per_factor = pressure_mpa * span_mm**4 / plate_stiffness_n_mm(modulus_mpa, thickness_mm, poisson)
    if _SQUARE * per_factor > thickness_mm / 2:
        return NotValid("gives-by-more-than-half")
    return Bracket(_SQUARE * per_factor, _STRIP * per_factor)
