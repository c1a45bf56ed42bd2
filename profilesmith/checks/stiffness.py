"""Stiffness and mass of a strip of the part against the base: what walls, closing layers and filling do to it."""

from profilesmith.checks.amounts import amount, between
from profilesmith.checks.bar import Bar, Pose, bar_of, pose_code, poses, widths
from profilesmith.checks.case import Case, ask
from profilesmith.checks.materials import flexible, modulus, rigid_modulus, spool_name
from profilesmith.checks.softness import levers, thickness_alone
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger.judgement import Amount, Finding
from profilesmith.physics.answer import Bracket, NotValid, spanning
from profilesmith.physics.section import (
    bending_bracket,
    mass_ratio,
    ordered_cores_bracket,
    same_pattern_bracket,
    shared_core_bracket,
)

CHECK, MASS = "stiffness", "mass"
SOURCE = (
    "transformed section (parallel-axis theorem; Allen 1969); filling from rho^n to rho (Gibson and Ashby 1997; Voigt "
    "1889); linear, small strain, no difference between directions of the layers"
)
SETTINGS = (
    "wall.count",
    "top.layers",
    "bottom.layers",
    "infill.density",
    "infill.pattern",
    "layer.height",
    "bead.width",
)
ALIKE = 0.05  # less is not felt by hand (own threshold)


class Pair(NamedTuple):
    """The same strip before and after, as it lies or stands in the printer."""

    old: Bar
    new: Bar
    pose: Pose


def check(case: Case) -> tuple[Finding, ...]:
    """None where a profile is judged alone."""
    if case.derived is None:
        return ()
    thickness = case.quantity("part.thickness")
    if thickness is None:
        asked = ask("part.thickness")
        return (Finding(CHECK, "not judged", reason="thickness-not-said", ask=asked, settings=SETTINGS),)
    pairs = []
    for pose in poses(case):
        old, new = bar_of(case.base, thickness, pose), bar_of(case.derived, thickness, pose)
        if isinstance(old, str) or isinstance(new, str):
            missing = old if isinstance(old, str) else str(new)
            return (Finding(CHECK, "not judged", reason="bar-not-told", settings=(missing,)),)
        pairs.append(Pair(old, new, pose))
    strips = [(strip, width) for strip in pairs for width in strip_widths(case, strip)]
    masses = [mass_change(strip.old, strip.new, width) for strip, width in strips]
    mass = _mass_finding(masses)
    changes = [change for strip, width in strips if (change := bending_change(strip.old, strip.new, width)) is not None]
    if len(changes) < len(strips):
        return (Finding(CHECK, "not judged", reason="filling-alone-not-known", settings=SETTINGS), *mass)
    return (_finding(case, spanning(changes), pairs), *mass)


def strip_widths(case: Case, strip: Pair) -> tuple[float, ...]:
    """Widths that the part may have."""
    walls = (strip.old.wall, strip.new.wall)
    return widths(strip.new.thickness, walls, case.quantity("part.width"), case.word("part.form"))


def bending_change(old: Bar, new: Bar, width: float) -> Bracket | None:
    """Bending stiffness, new over old, for a strip of this width; None when the old one may carry nothing.

    What is the same on both sides cancels.
    """
    before, after = old.section(width), new.section(width)
    if old == new:
        return Bracket(1.0, 1.0)
    if old.pattern != new.pattern:
        apart = bending_bracket(before, old.core_or_nothing())
        return bending_bracket(after, new.core_or_nothing()).over(apart) if apart.low > 0 else None
    sure = not any(isinstance(core, NotValid) for core in (old.core(), new.core())) and old.low_power <= 2
    change: Bracket | NotValid
    if old.density == new.density and old.bead == new.bead:
        change = shared_core_bracket(before, after, spanning((old.core_or_nothing(), new.core_or_nothing())))
    elif sure and old.density > 0 and new.density > 0:
        change = same_pattern_bracket(before, old.density, after, new.density)
    else:
        change = ordered_cores_bracket(before, old.core_or_nothing(), after, new.core_or_nothing())
    return None if isinstance(change, NotValid) else change


def mass_change(old: Bar, new: Bar, width: float) -> Bracket | None:
    """Plastic, new over old, for a strip of this width; None where the old one takes none."""
    before = mass_ratio(old.section(width), old.density)
    if before == 0:
        return None
    ratio = mass_ratio(new.section(width), new.density) / before
    return Bracket(ratio, ratio)


def _finding(case: Case, change: Bracket, pairs: list[Pair]) -> Finding:
    filled = all(_filled(strip) for strip in pairs)
    alone = filled and thickness_alone(case.once(levers))
    unchanged = change.low > 1 - ALIKE and change.high < 1 + ALIKE
    same = all(strip.old == strip.new for strip in pairs)
    own = modulus(case) if flexible(case) else None
    return Finding(
        CHECK,
        "passed" if same else "note",
        reason="bends-as-before" if unchanged else "bends-harder" if change.low > 1 + ALIKE else "bends-easier",
        also=(*(code for strip in pairs for code in _why(strip)), *(("thickness-alone",) if alone else ())),
        names=(spool_name(case),) if own else (),
        amounts=(
            *amount("before", 100.0, "%"),
            *between("after", change, "%", 100),
            *amount("thickness", pairs[0].new.thickness, "mm"),
            *(part for strip in pairs for part in _left_to_fill(strip)),
            *between("softer-than-rigid", rigid_modulus().mpa.over(own.mpa) if own else None),
        ),
        source=SOURCE,
        ask="" if same else _narrows(case),
        settings=SETTINGS,
        misses_aim=unchanged and any(_lighter(strip) for strip in pairs),
    )


def _lighter(strip: Pair) -> bool:
    """Whether walls, closing layers or filling were made less: who does that wants it softer."""
    old, new = strip.old, strip.new
    return new.density < old.density or new.wall < old.wall or new.core_mm > old.core_mm


def _narrows(case: Case) -> str:
    """The question whose answer narrows the bracket most."""
    for fact in ("part.orientation", "part.form"):
        if not case.word(fact):
            return ask(fact)
    return "" if case.quantity("part.width") is not None else ask("part.width")


def _why(strip: Pair) -> tuple[str, ...]:
    """How the part is printed, and why the filling does or does not count there."""
    pose = strip.pose
    if _filled(strip):
        return (pose_code(pose), f"{pose_code(pose)}-filled")
    few = isinstance(strip.new.core(), NotValid) or isinstance(strip.old.core(), NotValid)
    return (pose_code(pose), f"{pose_code(pose)}-few-cells") if few else (pose_code(pose),)


def _left_to_fill(strip: Pair) -> tuple[Amount, ...]:
    """What the faces leave of the thickness."""
    return amount(f"{pose_code(strip.pose)}-left", strip.new.core_mm, "mm") if _filled(strip) else ()


def _filled(strip: Pair) -> bool:
    return strip.new.core_mm < strip.new.thickness / 4


def _mass_finding(changes: list[Bracket | None]) -> tuple[Finding, ...]:
    """None where a strip of the old part takes no plastic at all."""
    known = [mass for mass in changes if mass is not None]
    if len(known) < len(changes):
        return ()
    amounts = (*amount("before", 100.0, "%"), *between("after", spanning(known), "%", 100))
    return (Finding(MASS, "passed", reason="plastic-used", amounts=amounts, source=SOURCE, settings=SETTINGS),)
