"""Hours, grams, metres and money of the print, from what the old one took; whether the spool is enough."""

from profilesmith.checks.amounts import amount, between, switch
from profilesmith.checks.case import Case, ask
from profilesmith.checks.materials import rigid_range, spool_name, spool_range
from profilesmith.checks.print_time import path_changes, time_bracket
from profilesmith.ledger.judgement import Amount, Finding, Verdict
from profilesmith.physics.answer import Bracket
from profilesmith.physics.bead import filament_length_m

HOURS, PLASTIC = "print-hours", "plastic"
TIME_SOURCE = "the old print's own time, times the bracket of the print time"
MASS_SOURCE = "the old print's own mass, times the densities of the two plastics (materials.toml, or the spool's own)"
FED = ("layer.height", "bead.flow", "first_layer.height", "raft.layers", "support.pattern", "support.overhang_angle")


def check(case: Case) -> tuple[Finding, ...]:
    """None where nobody told of the old print, and nothing was measured."""
    findings = (_hours(case), _plastic(case))
    return tuple(finding for finding in findings if finding is not None)


def hours(case: Case) -> Bracket | None:
    """Hours that the print takes; None where the path is another one, or nothing is known of the old print."""
    if case.measured.after.hours is not None:
        return case.measured.after.hours
    old, whole = old_hours(case), time_bracket(case)
    if old is None or whole is None or other_path(case):
        return None
    return Bracket(old.low * whole.low, old.high * whole.high)


def old_hours(case: Case) -> Bracket | None:
    """Of the old print: as somebody told, else by its motion file."""
    stated = case.quantity("part.rigid_time")
    return case.measured.before.hours if stated is None else Bracket(stated / 3600, stated / 3600)


def old_grams(case: Case) -> float | None:
    """Of the old print: as somebody told, else by its motion file."""
    stated = case.quantity("part.rigid_mass")
    return case.measured.before.grams if stated is None else stated


def grams(case: Case) -> Bracket | None:
    """Filament that the print takes [g]; None as ``hours``."""
    if case.measured.after.grams is not None:
        return Bracket(case.measured.after.grams, case.measured.after.grams)
    mass, old, new = old_grams(case), rigid_range("density"), density_g_cm3(case)
    if mass is None or new is None or case.derived is None or other_path(case):
        return None
    return Bracket(mass * new.low / old.high, mass * new.high / old.low)


def density_g_cm3(case: Case) -> Bracket | None:
    """The spool's density: its own, else that of its material."""
    own, usual = case.quantity("spool.density"), spool_range(case, "density")
    if own is not None:
        return Bracket(own, own)
    return None if usual is None else Bracket(usual.low, usual.high)


def other_path(case: Case) -> list[str]:
    """The settings whose change sends the nozzle another way; empty where it goes the same."""
    changed = path_changes(case)
    for name in FED:
        if case.derived is not None and case.base.values(name) != case.derived.values(name) and _laid(case, name):
            changed.append(name)
    return changed


def _laid(case: Case, name: str) -> bool:
    part = name.partition(".")[0]
    return part not in ("support", "raft") or any(switch(side, f"{part}.on") is not False for _, side in case.sides)


def _hours(case: Case) -> Finding | None:
    old = old_hours(case)
    if case.derived is None or (old is None and case.measured.after.hours is None):
        return None
    new = hours(case)
    if new is None:
        changed = tuple(other_path(case))
        return Finding(HOURS, "not judged", reason="path-changed" if changed else "times-not-comparable", names=changed)
    amounts = (*between("before", old, "h"), *between("after", new, "h"))
    return Finding(HOURS, "note", reason="hours", amounts=amounts, source=TIME_SOURCE)


def _plastic(case: Case) -> Finding | None:
    old = old_grams(case)
    if case.derived is None or (old is None and case.measured.after.grams is None):
        return None
    new = grams(case)
    if new is None:
        return _no_plastic(case)
    left, price = case.quantity("spool.left"), case.quantity("spool.price")
    verdict, reason = _enough(left, new)
    return Finding(
        PLASTIC,
        verdict,
        reason=reason,
        amounts=(
            *amount("before", old or None, "g"),
            *between("after", new, "g"),
            *_length(case, new),
            *between("price", None if price is None else new, "", (price or 0) / 1000),
            *amount("most", left, "g"),
        ),
        source=MASS_SOURCE,
        ask="" if left is not None else ask("spool.left"),
    )


def _no_plastic(case: Case) -> Finding:
    changed = tuple(other_path(case))
    if changed:
        return Finding(PLASTIC, "not judged", reason="path-changed", names=changed)
    names = (spool_name(case),)
    return Finding(PLASTIC, "not judged", reason="density-not-known", names=names, ask=ask("spool.density"))


def _enough(left: float | None, needed: Bracket) -> tuple[Verdict, str]:
    if left is None:
        return "note", "plastic"
    if needed.low > left:
        return "stop", "spool-too-short"
    return ("caution", "spool-may-be-too-short") if needed.high > left else ("passed", "spool-enough")


def _length(case: Case, needed: Bracket) -> tuple[Amount, ...]:
    diameter, density = case.size("filament.diameter"), density_g_cm3(case)
    if diameter is None or density is None:
        return ()
    ends = filament_length_m(needed.low, diameter, density.high), filament_length_m(needed.high, diameter, density.low)
    return between("length", Bracket(*ends), "m")
