"""Hours, grams, metres and money of the print, from what the old one took; whether the spool is enough."""

from profilesmith.checks.amounts import bracket, few
from profilesmith.checks.case import Case, ask, switch
from profilesmith.checks.finding import not_judged
from profilesmith.checks.materials import rigid_range, spool_name, spool_range
from profilesmith.checks.print_time import path_changes, time_bracket
from profilesmith.foundation.words import listed
from profilesmith.ledger.judgement import Finding, Verdict
from profilesmith.physics.answer import Bracket
from profilesmith.physics.bead import filament_length_m

HOURS, HOURS_TITLE = "print-hours", "Hours of this print"
PLASTIC, PLASTIC_TITLE = "plastic", "Filament for this print"
MOTION = "A motion file of both prints tells it."
TIME_SOURCE = "the old print's own time, times the bracket of the print time"
MASS_SOURCE = "the old print's own mass, times the densities of the two plastics (materials.toml, or the spool's own)"
FED = ("layer.height", "bead.flow", "first_layer.height", "raft.layers", "support.pattern", "support.overhang_angle")

ENOUGH = {"note": "plastic", "stop": "spool-too-short", "caution": "spool-may-be-too-short", "passed": "spool-enough"}


def check(case: Case) -> tuple[Finding, ...]:
    """None where nobody told of the old print, and nothing was measured."""
    found = (_hours(case), _plastic(case))
    return tuple(finding for finding in found if finding is not None)


def hours(case: Case) -> Bracket | None:
    """Hours that the print takes; None where the path is another one, or nothing is known of the old print."""
    if case.measured.after.hours is not None:
        return case.measured.after.hours
    told, whole = old_hours(case), time_bracket(case)
    if told is None or whole is None or other_path(case):
        return None
    return Bracket(told.low * whole.low, told.high * whole.high)


def old_hours(case: Case) -> Bracket | None:
    """Of the old print: as somebody told, else by its motion file."""
    told = case.quantity("part.rigid_time")
    return case.measured.before.hours if told is None else Bracket(told / 3600, told / 3600)


def old_grams(case: Case) -> float | None:
    """Of the old print: as somebody told, else by its motion file."""
    told = case.quantity("part.rigid_mass")
    return case.measured.before.grams if told is None else told


def grams(case: Case) -> Bracket | None:
    """Filament that the print takes [g]; None as ``hours``."""
    if case.measured.after.grams is not None:
        return Bracket(case.measured.after.grams, case.measured.after.grams)
    told, old, new = old_grams(case), rigid_range("density"), density_g_cm3(case)
    if told is None or new is None or case.derived is None or other_path(case):
        return None
    return Bracket(told * new.low / old.high, told * new.high / old.low)


def density_g_cm3(case: Case) -> Bracket | None:
    """The spool's density: its own, else that of its material."""
    own, usual = case.quantity("spool.density"), spool_range(case, "density")
    if own is not None:
        return Bracket(own, own)
    return None if usual is None else Bracket(usual.low, usual.high)


def other_path(case: Case) -> list[str]:
    """Why the nozzle no longer goes the same way, in words; empty where it does."""
    changed = path_changes(case)
    for name in FED:
        if case.derived is not None and case.base.values(name) != case.derived.values(name) and _laid(case, name):
            changed.append(name)
    return changed


def _laid(case: Case, name: str) -> bool:
    part = name.partition(".")[0]
    return part not in ("support", "raft") or any(switch(side, f"{part}.on") is not False for _, side in case.sides)


def _hours(case: Case) -> Finding | None:
    told = old_hours(case)
    if case.derived is None or (told is None and case.measured.after.hours is None):
        return None
    found = hours(case)
    if found is None:
        changed = other_path(case)
        reason = f"the path itself changed: {listed(changed)}" if changed else "the two cannot be compared in time"
        return not_judged(HOURS, HOURS_TITLE, reason, known=MOTION)
    text = (
        f"It takes {bracket(found, 'h')}; the old print took {bracket(told, 'h')}."
        if told
        else f"It takes {bracket(found, 'h')}."
    )
    before = bracket(told, "h") if told else ""
    return Finding(
        HOURS, "note", HOURS_TITLE, text, before=before, after=bracket(found, "h"), source=TIME_SOURCE, reason="hours"
    )


def _plastic(case: Case) -> Finding | None:
    told = old_grams(case)
    if case.derived is None or (told is None and case.measured.after.grams is None):
        return None
    found = grams(case)
    if found is None:
        changed = other_path(case)
        if changed:
            return not_judged(PLASTIC, PLASTIC_TITLE, f"the path itself changed: {listed(changed)}", known=MOTION)
        reason = f"the density of {spool_name(case)} is not known"
        return not_judged(PLASTIC, PLASTIC_TITLE, reason, ask("spool.density"))
    verdict, enough = _enough(case, found)
    text = f"It takes {bracket(found, 'g')}{_length(case, found)}{_price(case, found)}.{enough}"
    left = case.quantity("spool.left")
    return Finding(
        PLASTIC,
        verdict,
        PLASTIC_TITLE,
        text,
        before=f"{few(told, 3)} g" if told else "",
        after=bracket(found, "g"),
        limit=f"at most {few(left, 3)} g" if left is not None else "",
        source=MASS_SOURCE,
        reason=ENOUGH[verdict],
        ask="" if left is not None else ask("spool.left"),
    )


def _enough(case: Case, found: Bracket) -> tuple[Verdict, str]:
    left = case.quantity("spool.left")
    if left is None:
        return "note", ""
    if found.low > left:
        return "stop", f" The spool's {few(left, 3)} g are not enough: it runs dry in the middle of the print."
    if found.high > left:
        return "caution", f" The spool's {few(left, 3)} g may not be enough: weigh it, and have the next one at hand."
    return "passed", f" The spool's {few(left, 3)} g are enough."


def _length(case: Case, found: Bracket) -> str:
    diameter, density = case.size("filament.diameter"), density_g_cm3(case)
    if diameter is None or density is None:
        return ""
    ends = filament_length_m(found.low, diameter, density.high), filament_length_m(found.high, diameter, density.low)
    return f", {bracket(Bracket(*ends), 'm')}"


def _price(case: Case, found: Bracket) -> str:
    price = case.quantity("spool.price")
    return "" if price is None else f", at a price of {bracket(found, '', price / 1000)}"
