"""How to make the part softer: what thickness, faces and filling each do."""

from collections.abc import Callable

from profilesmith.checks.amounts import bracket, mm
from profilesmith.checks.bar import Bar, Pose, bar_of, poses, widths
from profilesmith.checks.beads import bead_width, wall_mm
from profilesmith.checks.case import Case, count, size
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.words import plural
from profilesmith.ledger.judgement import Amount, Finding, Verdict
from profilesmith.physics.answer import Bracket, NotValid, spanning
from profilesmith.physics.stiffness_change import shared_core_bracket
from profilesmith.profile.profile import Profile

CHECK, TITLE = "softness", "What would make it softer"
LEVERS = ("fewest-faces", "least-filling", "thinner")  # what is left of the stiffness with each, as programs know them
# Fewer closing layers, walls, or less filling seldom come out closed: common practice, no source.
HARDLY = 0.9  # of the stiffness left: a tenth less is hardly felt (own threshold)
LEAST_LAYERS, LEAST_WALLS, LEAST_FILLING = 2, 1, 0.05
SOURCE = "transformed section, thickness to the third power (handbook beam formula); filling cancels where it stays"
SETTINGS = ("wall.count", "top.layers", "bottom.layers", "infill.density", "layer.height")


class Lever(NamedTuple):
    """words: what is changed; left: the bending stiffness that is left, as a share."""

    words: str
    left: Bracket


def check(case: Case) -> tuple[Finding, ...]:
    """None without a thickness."""
    found = _levers(case) if case.quantity("part.thickness") is not None else None
    return () if found is None else (found,)


def levers(case: Case, profile: Profile, thickness: float) -> list[Lever]:
    """What each change alone would leave of the stiffness that the profile gives now."""
    held = [(pose, bar) for pose in poses(case) if isinstance(bar := bar_of(profile, thickness, pose), Bar)]
    if len(held) < len(poses(case)):
        return []
    wanted: tuple[tuple[str, Callable[[Pose, Bar], Bar]], ...] = (
        (_faces_words(case), lambda pose, bar: _thinner_faces(profile, pose, bar)),
        (f"{LEAST_FILLING:.0%} of filling".replace("%", " %"), lambda pose, bar: _sparser(bar)),
        (f"a thickness of {mm(thickness * 0.8)}", lambda pose, bar: bar._replace(thickness=thickness * 0.8)),
    )
    return [Lever(words, left) for words, change in wanted if (left := _left(case, held, change)) is not None]


def thickness_alone(found: list[Lever]) -> bool:
    """Whether only a thinner part would be felt as softer."""
    return bool(found) and all(lever.left.low > HARDLY for lever in found[:-1])


def bending_left(old: Bar, new: Bar, width: float) -> Bracket | None:
    """Bending stiffness, new over old, of bars of two thicknesses in one plastic with one filling."""
    if old == new:
        return Bracket(1.0, 1.0)
    core = spanning((old.core_or_nothing(), new.core_or_nothing()))
    change = shared_core_bracket(old.section(width), new.section(width), core)
    cubed = (new.thickness / old.thickness) ** 3
    return None if isinstance(change, NotValid) else Bracket(change.low * cubed, change.high * cubed)


def _left(case: Case, held: list[tuple[Pose, Bar]], change: Callable[[Pose, Bar], Bar]) -> Bracket | None:
    found = []
    for pose, bar in held:
        strips = widths(bar.thickness, (), case.quantity("part.width"), case.word("part.form"))
        found += [bending_left(bar, change(pose, bar), width) for width in {min(strips), max(strips)}]
    known = [left for left in found if left is not None]
    return spanning(known) if len(known) == len(found) else None


def _faces_words(case: Case) -> str:
    standing = [pose.standing for pose in poses(case)]
    walls, layers = plural(LEAST_WALLS, "wall"), f"{LEAST_LAYERS} closing layers"
    return walls if all(standing) else layers if not any(standing) else f"{walls} or {layers}"


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
    found = levers(case, case.now, thickness)
    if not found:
        return None
    told = [f"{lever.words}: {bracket(lever.left, '%', 100)}" for lever in found]
    text = f"Of its bending stiffness there would be left, each alone, with {'; with '.join(told)}."
    verdict: Verdict = "passed"
    reason = "levers"
    if thickness_alone(found):
        verdict, reason = "note", "thickness-alone"
        text += " Thickness is all that there is: fewer faces and less filling hardly count, or would not close."
    amounts = tuple(
        Amount(name, lever.left.low * 100, lever.left.high * 100, "%")
        for name, lever in zip(LEVERS, found, strict=False)
    )
    return Finding(CHECK, verdict, TITLE, text, source=SOURCE, settings=SETTINGS, reason=reason, amounts=amounts)
