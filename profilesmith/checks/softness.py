"""How hard the part pushes back: the stiffness of a strip held at one end, and the strip itself; how to make it softer:
what thickness, faces and filling each do.
"""

from collections.abc import Callable

from profilesmith.checks.amounts import amount, between, count, size
from profilesmith.checks.bar import Bar, Pose, bar_of, pose_code, poses, widths
from profilesmith.checks.beads import bead_width, wall_mm
from profilesmith.checks.case import Case, ask
from profilesmith.checks.materials import Modulus, modulus, rigid_modulus, spool_name
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger.judgement import Amount, Finding
from profilesmith.physics.answer import Bracket, NotValid, spanning
from profilesmith.physics.section import (
    SLENDER,
    bending_bracket,
    shared_core_bracket,
    solid_second_moment_mm4,
    tip_stiffness_n_per_mm,
)
from profilesmith.profile.profile import Profile


def bars(case: Case, profile: Profile, thickness: float) -> list[Bar] | str:
    """The bar in each pose that the facts leave open, or the setting that is missing for one."""
    bars = []
    for pose in poses(case):
        bar = bar_of(profile, thickness, pose)
        if isinstance(bar, str):
            return bar
        bars.append(bar)
    return bars


def second_moment_per_width_mm3(case: Case, held: list[Bar]) -> Bracket:
    """Second moment over width of all the bars that the part may be [mm3]."""
    width, form = case.quantity("part.width"), case.word("part.form")
    return spanning(_per_width(bar, strip) for bar in held for strip in widths(bar.thickness, (bar.wall,), width, form))


def _per_width(bar: Bar, width: float) -> Bracket:
    section = bar.section(width)
    share, solid = bending_bracket(section, bar.core_or_nothing()), solid_second_moment_mm4(section) / width
    return Bracket(share.low * solid, share.high * solid)


FELT = "felt-stiffness"
UNIT = "N/mm"
PUSHED = 0.1  # of the free length: as far as the beam formula reaches
LAW_HOLDS_A = (60, 90)  # Shore hardness between which the modulus is good to a factor of two
NEEDED = ("part.thickness", "part.width", "part.free_length")
FELT_SETTINGS = ("wall.count", "top.layers", "bottom.layers", "infill.density", "layer.height", "bead.width")
FELT_SOURCE = (
    "strip held at one end, pushed at the other: k = 3 E I / L^3 (handbook beam formula), up "
    "to a tenth of its length; I "
    "as for the stiffness of walls and filling"
)


def check_felt(case: Case) -> tuple[Finding, ...]:
    """None where nobody asks: without a free length there is no such number."""
    if case.quantity("part.free_length") is None:
        return ()
    for fact in NEEDED:
        if not case.quantity(fact):
            return (_not_judged("strip-size-not-known", ask(fact)),)
    own = modulus(case)
    if own is None:
        return (_not_judged("filament-softness-not-said", ask("spool.hardness")),)
    length, thickness = case.quantity("part.free_length") or 0.0, case.quantity("part.thickness") or 0.0
    if length < SLENDER * thickness:
        sizes = (*amount("length", length, "mm"), *amount("thickness", thickness, "mm"))
        return (_not_judged("strip-too-stubby", "", sizes),)
    now = tip_stiffness(case, case.now, own)
    if isinstance(now, str):
        return (Finding(FELT, "not judged", reason="bar-not-told", settings=(now,)),)
    return (_finding(case, now, own, length),)


def _not_judged(reason: str, asked: str, amounts: tuple[Amount, ...] = ()) -> Finding:
    return Finding(FELT, "not judged", reason=reason, amounts=amounts, ask=asked, settings=FELT_SETTINGS)


def tip_stiffness(case: Case, side: Profile, plastic: Modulus) -> Bracket | str:
    """Force per deflection at the free end [N/mm] of the part as a side prints it, or the missing setting."""
    thickness, width, length = (case.quantity(fact) or 0.0 for fact in NEEDED)
    held = bars(case, side, thickness)
    if isinstance(held, str):
        return held
    moment = second_moment_per_width_mm3(case, held)
    return Bracket(
        tip_stiffness_n_per_mm(plastic.mpa.low, moment.low * width, length) if moment.low else 0.0,
        tip_stiffness_n_per_mm(plastic.mpa.high, moment.high * width, length),
    )


def _finding(case: Case, now: Bracket, own: Modulus, length: float) -> Finding:
    rigid = None if case.derived is None else tip_stiffness(case, case.base, rigid_modulus())
    return Finding(
        FELT,
        "note",
        reason="felt-stiffness",
        also=() if _law_holds(case) else ("hardness-outside-law",),
        amounts=(
            *between("before", rigid if isinstance(rigid, Bracket) else None, UNIT),
            *between("after", now, UNIT),
            *between("push", now, "N", PUSHED * length),
            *amount("length", length, "mm"),
        ),
        source=f"{FELT_SOURCE}; modulus of {spool_name(case)}: {own.source}; rigid PLA: {rigid_modulus().source}",
        ask="" if case.quantity("spool.modulus") is not None else ask("spool.modulus"),
        settings=FELT_SETTINGS,
    )


def _law_holds(case: Case) -> bool:
    """Whether the hardness on the label, where one is told, is one of those between which the modulus is good."""
    hardness = case.hardness()
    return hardness is None or hardness.scale != "A" or LAW_HOLDS_A[0] <= hardness.number <= LAW_HOLDS_A[1]


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
