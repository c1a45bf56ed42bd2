"""Stiffness and mass of a strip of the part against the base: what walls, closing layers and filling do to it."""

from profilesmith.checks.amounts import bracket, mm
from profilesmith.checks.bar import Bar, Pose, bar_of, poses, widths
from profilesmith.checks.case import Case, ask
from profilesmith.checks.finding import not_judged, not_said
from profilesmith.checks.materials import flexible, modulus, rigid_modulus, spool_name
from profilesmith.checks.softness import levers, thickness_alone
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger.judgement import Amount, Finding
from profilesmith.physics.answer import Bracket, NotValid, spanning
from profilesmith.physics.section import bending_bracket, mass_ratio
from profilesmith.physics.stiffness_change import ordered_cores_bracket, same_pattern_bracket, shared_core_bracket

CHECK, TITLE = "stiffness", "Stiffness from walls and filling"
MASS, MASS_TITLE = "mass", "Plastic used"
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
        return (not_said(CHECK, TITLE, "how thick the part is", ask("part.thickness"), SETTINGS),)
    pairs = []
    for pose in poses(case):
        old, new = bar_of(case.base, thickness, pose), bar_of(case.derived, thickness, pose)
        if isinstance(old, str) or isinstance(new, str):
            missing = old if isinstance(old, str) else str(new)
            return (not_judged(CHECK, TITLE, f"the text does not tell {missing}", settings=(missing,)),)
        pairs.append(Pair(old, new, pose))
    strips = [(pair, width) for pair in pairs for width in strip_widths(case, pair)]
    mass = spanning(mass_change(pair.old, pair.new, width) for pair, width in strips)
    changes = [change for pair, width in strips if (change := bending_change(pair.old, pair.new, width)) is not None]
    if len(changes) < len(strips):
        reason = "walls and closing layers carry nothing, and the filling alone is not known well enough"
        return (not_judged(CHECK, TITLE, reason, settings=SETTINGS), _mass_finding(mass))
    return (_finding(case, spanning(changes), pairs), _mass_finding(mass))


def strip_widths(case: Case, pair: Pair) -> tuple[float, ...]:
    """Widths that the part may have."""
    walls = (pair.old.wall, pair.new.wall)
    return widths(pair.new.thickness, walls, case.quantity("part.width"), case.word("part.form"))


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


def mass_change(old: Bar, new: Bar, width: float) -> Bracket:
    """Plastic, new over old, for a strip of this width."""
    ratio = mass_ratio(new.section(width), new.density) / mass_ratio(old.section(width), old.density)
    return Bracket(ratio, ratio)


def _finding(case: Case, change: Bracket, pairs: list[Pair]) -> Finding:
    filled = all(_filled(pair) for pair in pairs)
    alone = filled and thickness_alone(levers(case, case.now, pairs[0].new.thickness))
    strip = f"A strip {mm(pairs[0].new.thickness)} thick {_placed(pairs)}"
    text = (
        f"{strip} has {bracket(change, '%', 100)} of the bending stiffness that walls, closing layers and filling "
        "gave it."
    )
    if change.low > 1 + ALIKE:
        text = f"{strip} becomes {bracket(change)} times as stiff by its walls, closing layers and filling."
    if change.low > 1 - ALIKE and change.high < 1 + ALIKE:
        text = f"{strip} bends as before, as far as walls, closing layers and filling go."
        if alone:
            text = f"{strip} bends as before: its faces fill it, and thickness is all that is left to change."
    unchanged = change.low > 1 - ALIKE and change.high < 1 + ALIKE
    text += "".join(dict.fromkeys(_why(pair, alone) for pair in pairs)) + _material(case)
    same = all(pair.old == pair.new for pair in pairs)
    return Finding(
        CHECK,
        "passed" if same else "note",
        TITLE,
        text,
        before="100 %",
        after=bracket(change, "%", 100),
        source=SOURCE,
        ask="" if same else _narrows(case),
        settings=SETTINGS,
        reason="bends-as-before" if unchanged else "bends-harder" if change.low > 1 + ALIKE else "bends-easier",
        amounts=(Amount("after", change.low * 100, change.high * 100, "%"),),
        misses_aim=unchanged and any(_lighter(pair) for pair in pairs),
    )


def _lighter(pair: Pair) -> bool:
    """Whether walls, closing layers or filling were made less: who does that wants it softer."""
    old, new = pair.old, pair.new
    return new.density < old.density or new.wall < old.wall or new.core_mm > old.core_mm


def _placed(pairs: list[Pair]) -> str:
    """``that lies flat``."""
    standing = [pair.pose.standing for pair in pairs]
    return "that stands upright" if all(standing) else "that lies flat" if not any(standing) else "(lying or standing)"


def _narrows(case: Case) -> str:
    """The question whose answer narrows the bracket most."""
    for fact in ("part.orientation", "part.form"):
        if not case.word(fact):
            return ask(fact)
    return "" if case.quantity("part.width") is not None else ask("part.width")


def _why(pair: Pair, alone: bool) -> str:
    """Why the filling does or does not count."""
    faces = "Walls" if pair.pose.standing else "Closing layers"
    if _filled(pair):
        left = f"all but {mm(pair.new.core_mm)} of it" if pair.new.core_mm else "all of it"
        wanted = "only a thinner part" if alone else "fewer of them"
        return f" {faces} fill {left}, so the filling hardly counts: {wanted} would make it softer."
    if isinstance(pair.new.core(), NotValid) or isinstance(pair.old.core(), NotValid):
        return " Fewer than three cells of the filling fit in, so mainly walls and closing layers count."
    return ""


def _filled(pair: Pair) -> bool:
    return pair.new.core_mm < pair.new.thickness / 4


def _material(case: Case) -> str:
    own = modulus(case)
    if own is None or not flexible(case):
        return ""
    softer = rigid_modulus().mpa.over(own.mpa)
    return (
        f" The plastic itself is another matter: {spool_name(case)} is {bracket(softer)} times softer than rigid PLA."
    )


def _mass_finding(mass: Bracket) -> Finding:
    text = f"A strip of the part takes {bracket(mass, '%', 100)} of the plastic that it took."
    return Finding(
        MASS,
        "passed",
        MASS_TITLE,
        text,
        before="100 %",
        after=bracket(mass, "%", 100),
        source=SOURCE,
        settings=SETTINGS,
        reason="plastic-used",
        amounts=(Amount("after", mass.low * 100, mass.high * 100, "%"),),
    )
