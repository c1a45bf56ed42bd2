"""How stiff a sparse core is, as a ratio to the solid plastic: E* / Es for a density.

No single law holds for all patterns and sizes, so ``core_modulus_bracket`` is the one to show: from a law of bending
cell walls up to the stiffest that this much plastic can be (Voigt). It refuses cores that are too thin for an average.
All: linear, small strain, no voids in the bead, perfect bonds.
"""

from __future__ import annotations

import math

from profilesmith.physics.answer import Bracket, NotValid
from profilesmith.physics.inputs import require_positive, require_share

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
