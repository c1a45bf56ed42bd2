"""A thin face over sparse infill: how wide it spans between the lines below, and how far it gives under a pressure.

The span is that of the largest circle that fits between the lines. The truth of a dent lies between a clamped square
and a clamped strip of that span. Sources: Timoshenko & Woinowsky-Krieger 1959, Theory of Plates and Shells, for both.
"""

from __future__ import annotations

from collections.abc import Mapping

from profilesmith.physics.answer import Bracket, NotValid
from profilesmith.physics.inputs import require_positive, require_share

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
