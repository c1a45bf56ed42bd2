"""How to make the part softer: what thickness, faces and filling each do."""

from collections.abc import Callable

from profilesmith.checks.bar import Bar, Pose, bar_of, pose_code, poses, widths
from profilesmith.checks.beads import bead_width, wall_mm
from profilesmith.checks.case import Case
from profilesmith.checks.finding import amount, between
from profilesmith.checks.plain_numbers import count, size
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger.judgement import Finding
from profilesmith.physics.answer import Bracket, NotValid, spanning
from profilesmith.physics.stiffness_change import shared_core_bracket
from profilesmith.profile.profile import Profile

CHECK = "softness"
THINNER = "thinner"
LEVERS = ("fewest-faces", "least-filling", THINNER)  # what is left of the stiffness with each, as programs know them
# Fewer closing layers, walls, or less filling seldom come out closed: common practice, no source.
HARDLY = 0.9  # of the stiffness left: a tenth less is hardly felt (own threshold)
LEAST_LAYERS, LEAST_WALLS, LEAST_FILLING = 2, 1, 0.05
THINNED = 0.8  # of the thickness: what another part would be like
SOURCE = "transformed section, thickness to the third power (handbook beam formula); filling cancels where it stays"
SETTINGS = ("wall.count", "top.layers", "bottom.layers", "infill.density", "layer.height")


class SofterBy(NamedTuple):
    """name: of ``LEVERS``, what is changed; left: the bending stiffness that is left, as a share."""

    name: str
    left: Bracket


def check(case: Case) -> tuple[Finding, ...]:
    """None without a thickness."""
    finding = _levers(case) if case.quantity("part.thickness") is not None else None
    return () if finding is None else (finding,)


def levers(case: Case) -> list[SofterBy]:
    """What each change alone would leave of the stiffness that the part has now; none without its thickness."""
    profile, thickness = case.now, case.quantity("part.thickness")
    if thickness is None:
        return []
    held = [(pose, bar) for pose in poses(case) if isinstance(bar := bar_of(profile, thickness, pose), Bar)]
    if len(held) < len(poses(case)):
        return []
    changes: tuple[Callable[[Pose, Bar], Bar], ...] = (
        lambda pose, bar: _thinner_faces(profile, pose, bar),
        lambda pose, bar: _sparser(bar),
        lambda pose, bar: bar._replace(thickness=thickness * THINNED),
    )
    ways = [(name, _left(case, held, change)) for name, change in zip(LEVERS, changes, strict=True)]
    return [SofterBy(name, left) for name, left in ways if left is not None]


def thickness_alone(ways: list[SofterBy]) -> bool:
    """Whether only a thinner part would be felt as softer."""
    return bool(ways) and all(lever.left.low > HARDLY for lever in ways if lever.name != THINNER)


def bending_left(old: Bar, new: Bar, width: float) -> Bracket | None:
    """Bending stiffness, new over old, of bars of two thicknesses in one plastic with one filling."""
    if old == new:
        return Bracket(1.0, 1.0)
    core = spanning((old.core_or_nothing(), new.core_or_nothing()))
    change = shared_core_bracket(old.section(width), new.section(width), core)
    cubed = (new.thickness / old.thickness) ** 3
    return None if isinstance(change, NotValid) else Bracket(change.low * cubed, change.high * cubed)


def _left(case: Case, held: list[tuple[Pose, Bar]], change: Callable[[Pose, Bar], Bar]) -> Bracket | None:
    shares = []
    for pose, bar in held:
        strips = widths(bar.thickness, (), case.quantity("part.width"), case.word("part.form"))
        shares += [bending_left(bar, change(pose, bar), width) for width in {min(strips), max(strips)}]
    known = [left for left in shares if left is not None]
    return spanning(known) if len(known) == len(shares) else None


def _thinner_faces(profile: Profile, pose: Pose, bar: Bar) -> Bar:
    height, walls = size(profile, "layer.height") or 0.0, count(profile, "wall.count") or 0
    if pose.standing:
        wall = wall_mm(profile) or 0.0
        bead = bead_width(profile, "outer_wall") or 0.0
        thin = min(wall, bead + (wall - bead) / max(walls - 1, 1) * (LEAST_WALLS - 1))
        return bar._replace(bottom=thin, top=thin)
    first = size(profile, "first_layer.height") or height
    return bar._replace(
        bottom=min(bar.bottom, first + (LEAST_LAYERS - 1) * height), top=min(bar.top, LEAST_LAYERS * height)
    )


def _sparser(bar: Bar) -> Bar:
    return bar._replace(density=min(bar.density, LEAST_FILLING))


def _levers(case: Case) -> Finding | None:
    thickness = case.quantity("part.thickness") or 0.0
    ways = case.once(levers)
    if not ways:
        return None
    alone = thickness_alone(ways)
    return Finding(
        CHECK,
        "note" if alone else "passed",
        reason="thickness-alone" if alone else "levers",
        also=tuple(pose_code(pose) for pose in poses(case)),
        amounts=(
            *(part for lever in ways for part in between(lever.name, lever.left, "%", 100)),
            *amount("thinner-part", thickness * THINNED, "mm"),
        ),
        source=SOURCE,
        settings=SETTINGS,
    )
