"""Stiffness and mass of a strip of the part against the base: what walls, closing layers and filling do to it."""

from profilesmith.checks.amounts import bracket, mm
from profilesmith.checks.bar import Bar, bar_of, widths
from profilesmith.checks.case import Case, ask
from profilesmith.checks.finding import not_judged, not_said
from profilesmith.checks.materials import flexible, modulus, rigid_modulus, spool_name
from profilesmith.ledger.judgement import Finding
from profilesmith.physics.answer import Bracket, NotValid, spanning
from profilesmith.physics.section import bending_bracket, mass_ratio
from profilesmith.physics.stiffness_change import same_pattern_bracket

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


def check(case: Case) -> tuple[Finding, ...]:
    """None where a profile is judged alone."""
    if case.derived is None:
        return ()
    thickness = case.quantity("part.thickness")
    if thickness is None:
        return (not_said(CHECK, TITLE, "how thick the part is", ask("part.thickness"), SETTINGS),)
    old, new = bar_of(case.base, thickness), bar_of(case.derived, thickness)
    if isinstance(old, str) or isinstance(new, str):
        missing = old if isinstance(old, str) else str(new)
        return (not_judged(CHECK, TITLE, f"the text does not tell {missing}", settings=(missing,)),)
    strips = widths((old, new), case.quantity("part.width"))
    mass = spanning(_mass(old, new, width) for width in strips)
    found = [change for width in strips if (change := bending_change(old, new, width)) is not None]
    if len(found) < len(strips):
        reason = "walls and closing layers carry nothing, and the filling alone is not known well enough"
        return (not_judged(CHECK, TITLE, reason, settings=SETTINGS), _mass_finding(mass))
    return (_finding(case, spanning(found), old, new), _mass_finding(mass))


def bending_change(old: Bar, new: Bar, width: float) -> Bracket | None:
    """Bending stiffness, new over old, for a strip of this width; None when the old one may carry nothing."""
    cores = old.core(), new.core()
    same = old.pattern == new.pattern and old.pattern != "" and old.density > 0 and new.density > 0
    if same and not any(isinstance(core, NotValid) for core in cores) and old.low_power <= 2:
        return same_pattern_bracket(old.section(width), old.density, new.section(width), new.density)
    before = bending_bracket(old.section(width), old.core_or_nothing())
    after = bending_bracket(new.section(width), new.core_or_nothing())
    return after.over(before) if before.low > 0 else None


def _mass(old: Bar, new: Bar, width: float) -> Bracket:
    ratio = mass_ratio(new.section(width), new.density) / mass_ratio(old.section(width), old.density)
    return Bracket(ratio, ratio)


def _finding(case: Case, change: Bracket, old: Bar, new: Bar) -> Finding:
    text = f"A flat strip {mm(new.thickness)} thick has {bracket(change, '%', 100)} of the bending stiffness that walls, closing layers and filling gave it."
    if change.low > 1 + ALIKE:
        text = f"A flat strip {mm(new.thickness)} thick becomes {bracket(change)} times as stiff by its walls, closing layers and filling."
    if change.low > 1 - ALIKE and change.high < 1 + ALIKE:
        text = (
            f"A flat strip {mm(new.thickness)} thick bends as before, as far as walls, closing layers and filling go."
        )
    text += _why(old, new) + _material(case)
    same = (old.section(1.0), old.density, old.pattern) == (new.section(1.0), new.density, new.pattern)
    return Finding(
        CHECK,
        "passed" if same else "note",
        TITLE,
        text,
        before="100 %",
        after=bracket(change, "%", 100),
        source=SOURCE,
        ask="" if case.quantity("part.width") is not None else ask("part.width"),
        settings=SETTINGS,
    )


def _why(old: Bar, new: Bar) -> str:
    """Why the filling does or does not count."""
    if new.core_mm < new.thickness / 4:
        return f" Closing layers fill all but {mm(new.core_mm)} of it, so the filling hardly counts: fewer of them would make it softer."
    if isinstance(new.core(), NotValid) or isinstance(old.core(), NotValid):
        return " Fewer than three cells of the filling fit in, so mainly walls and closing layers count."
    return ""


def _material(case: Case) -> str:
    own = modulus(case)
    if own is None or not flexible(case):
        return ""
    softer = rigid_modulus().mpa.over(own.mpa)
    return (
        f" The plastic itself is another matter: {spool_name(case)} gives {bracket(softer)} times as much as rigid PLA."
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
    )
