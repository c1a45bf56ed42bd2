"""A strip of the part's thickness with the walls, closing layers and filling that a profile gives it.

Lying flat, closing layers are the faces that bend and walls close its edges; standing upright, walls are the faces.
"""

from collections.abc import Iterable

from profilesmith.checks.amounts import choice, number, size
from profilesmith.checks.beads import wall_mm
from profilesmith.checks.case import Case
from profilesmith.checks.skins import thickness as skin_thickness
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.physics.answer import Bracket, NotValid
from profilesmith.physics.infill import (
    CELLS_IN_SPACE,
    HEXAGONS_ACROSS,
    NO_LAW,
    core_modulus_bracket,
    gyroid_cell_mm,
    line_spacing_mm,
)
from profilesmith.physics.section import BarSection
from profilesmith.profile.profile import Profile

# The law at the soft end, and in how many directions lines share a layer. What is not listed is taken as lines.
POWERS = {"gyroid": CELLS_IN_SPACE, "cubic": CELLS_IN_SPACE, "hexagons": HEXAGONS_ACROSS, "triangles": HEXAGONS_ACROSS}
DIRECTIONS = {"grid": 2, "triangles": 3, "hexagons": 3, "cubic": 3}
WIDE = 1e4  # so many times the thickness that the side walls count for nothing
FLAT, SLENDER = (5.0, WIDE), (1.0, 5.0)  # widths of a sheet and of a block, in thicknesses
SAMPLED = (1.0, 2.0, 5.0, 20.0, WIDE)  # widths of strips, in thicknesses


class Pose(NamedTuple):
    """standing: the faces that bend are walls. edges: the strip has edges that walls close."""

    standing: bool
    edges: bool


def pose_code(pose: Pose) -> str:
    """As findings name it."""
    return "standing" if pose.standing else "lying"


LYING = Pose(standing=False, edges=True)


class Bar(NamedTuple):
    """All lengths in mm. wall: plastic at each edge. bottom, top: plastic on the two faces that bend.

    density: share of one. bead: width of the infill's bead.
    """

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
        core = self.core(density)
        share = self.density if density is None else density
        return Bracket(0.0, share) if isinstance(core, NotValid) else core


def bar_of(profile: Profile, thickness: float, pose: Pose = LYING) -> Bar | str:
    """The bar of a part that is ``thickness`` mm thick, or the setting that is missing for it."""
    wall = wall_mm(profile)
    top, bottom = (None if pose.standing else skin_thickness(profile, side) for side in ("top", "bottom"))
    density, bead = number(profile, "infill.density"), size(profile, "bead.width")
    faces = () if pose.standing else (("top.layers", top), ("bottom.layers", bottom))
    first = (("layer.height", size(profile, "layer.height")), ("bead.width", bead), ("wall.count", wall))
    needed: tuple[tuple[str, object], ...] = (*first, *faces, ("infill.density", density))
    for name, given in needed:
        if given is None:
            return name
    assert wall is not None and density is not None and bead is not None  # noqa: PT018
    low, high = (wall, wall) if pose.standing else (float(bottom or 0), float(top or 0))
    edge = wall if pose.edges else 0.0
    return Bar(thickness, edge, low, high, min(density / 100, 1.0), choice(profile, "infill.pattern"), bead)


def poses(case: Case) -> tuple[Pose, ...]:
    """How the part may lie in the printer: one where the facts tell, all that they leave open otherwise.

    A tube that lies has faces of both kinds. Only a tube that stands has no edges.
    """
    form, orientation = case.word("part.form"), case.word("part.orientation")
    lying, standing = Pose(False, True), Pose(True, form != "tube")
    if orientation == "standing":
        return (standing,)
    if orientation == "lying" and form != "tube":
        return (lying,)
    return (lying, standing)


def widths(thickness: float, walls: Iterable[float], width: float | None, form: str = "") -> tuple[float, ...]:
    """The part's width; where it is not known, widths from square to very wide, and those at which side walls meet.

    A sheet or a tube's wall is at least five times as wide as thick, a block at most five times (own words). A strip's
    stiffness is linear in one over its width as long as its side walls do not meet, so ratios of strips are monotonic
    in between. Unequal closing layers bend that a little: what lies between the sampled widths is missed by less than
    half a percent (tested).
    """
    if width is not None:
        return (width,)
    least, most = SLENDER if form == "block" else FLAT if form else (1.0, WIDE)
    sampled = {thickness * times for times in SAMPLED if least <= times <= most}
    return tuple({*sampled, *(2 * wall for wall in walls if least < 2 * wall / thickness < most)})
