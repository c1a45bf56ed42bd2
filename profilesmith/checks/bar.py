"""A strip of the part's thickness, lying flat, with the walls, closing layers and filling that a profile gives it."""

from typing import NamedTuple

from profilesmith.checks.beads import wall_mm
from profilesmith.checks.case import choice, number, size
from profilesmith.checks.skins import thickness as skin_thickness
from profilesmith.physics.answer import Bracket, NotValid
from profilesmith.physics.core import CELLS_IN_SPACE, HEXAGONS_ACROSS, NO_LAW, core_modulus_bracket, gyroid_cell_mm
from profilesmith.physics.section import BarSection
from profilesmith.physics.spacing import line_spacing_mm
from profilesmith.profile.profile import Profile

# The law at the soft end, and in how many directions lines share a layer. What is not listed is taken as lines.
POWERS = {"gyroid": CELLS_IN_SPACE, "cubic": CELLS_IN_SPACE, "hexagons": HEXAGONS_ACROSS, "triangles": HEXAGONS_ACROSS}
DIRECTIONS = {"grid": 2, "triangles": 3, "hexagons": 3, "cubic": 3}
WIDE = 1e4  # so many times the thickness that the side walls count for nothing
SAMPLED = (1.0, 2.0, 5.0, 20.0, WIDE)  # widths of strips, in thicknesses


class Bar(NamedTuple):
    """All lengths in mm. density: share of one. bead: width of the infill's bead."""

    thickness: float
    wall: float
    bottom: float
    top: float
    density: float
    pattern: str
    bead: float

    def section(self, width: float) -> BarSection:
        return BarSection(
            width, self.thickness, self.wall, min(self.bottom, self.thickness), min(self.top, self.thickness)
        )

    @property
    def core_mm(self) -> float:
        """Height that is left for the filling."""
        return max(0.0, self.thickness - self.bottom - self.top)

    @property
    def low_power(self) -> float:
        return POWERS.get(self.pattern, NO_LAW)

    def core(self, density: float | None = None) -> Bracket | NotValid:
        """The filling's stiffness as a share of solid plastic, at its own density or another."""
        share = self.density if density is None else density
        if share <= 0 or share >= 1:
            return Bracket(min(max(share, 0.0), 1.0), min(max(share, 0.0), 1.0))
        if self.pattern == "gyroid":
            cell = gyroid_cell_mm(self.bead, share)
        else:
            cell = line_spacing_mm(self.bead, share, DIRECTIONS.get(self.pattern, 1))
        return core_modulus_bracket(share, self.core_mm, cell, self.low_power)

    def core_or_nothing(self, density: float | None = None) -> Bracket:
        """The same; where the filling's cells are too few for a law, from nothing up to the stiffest that it can be."""
        found = self.core(density)
        share = self.density if density is None else density
        return Bracket(0.0, share) if isinstance(found, NotValid) else found


def bar_of(profile: Profile, thickness: float) -> Bar | str:
    """The bar of a part that is ``thickness`` mm thick, or the setting that is missing for it."""
    wall, top, bottom = wall_mm(profile), skin_thickness(profile, "top"), skin_thickness(profile, "bottom")
    density, bead = number(profile, "infill.density"), size(profile, "bead.width")
    for name, found in (
        ("layer.height", size(profile, "layer.height")),
        ("bead.width", bead),
        ("wall.count", wall),
        ("top.layers", top),
        ("bottom.layers", bottom),
        ("infill.density", density),
    ):
        if found is None:
            return name
    assert wall is not None and top is not None and bottom is not None and density is not None and bead is not None  # noqa: PT018
    return Bar(
        thickness, wall, float(bottom), float(top), min(density / 100, 1.0), choice(profile, "infill.pattern"), bead
    )


def widths(bars: tuple[Bar, ...], width: float | None) -> tuple[float, ...]:
    """The part's width; where it is not known, widths from square to very wide, and those at which side walls meet.

    A strip's stiffness is linear in one over its width as long as its side walls do not meet, so ratios of strips are
    monotonic in between. Unequal closing layers bend that a little: what lies between the sampled widths is missed by
    less than half a percent (tested).
    """
    if width is not None:
        return (width,)
    least = bars[0].thickness
    return tuple({*(least * times for times in SAMPLED), *(2 * bar.wall for bar in bars if 2 * bar.wall > least)})
