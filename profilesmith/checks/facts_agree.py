"""Facts that contradict the profile or each other. What hangs on them is not judged, or judged with a word of
warning.
"""

import math

from profilesmith.checks.amounts import bracket, degrees, mm, shown
from profilesmith.checks.case import Case, ask
from profilesmith.checks.materials import hardness_modulus, material_modulus, of_spool, spool_name
from profilesmith.ledger.judgement import Finding
from profilesmith.physics.answer import Bracket

TITLE = "Facts that contradict"
FLOW_TITLE = "Flow limit in the text"
FACTS = "the facts files and the settings text"
APART = 3.0  # middles that differ by more are told (own threshold: twice the error of a law from hardness)


def check(case: Case) -> tuple[Finding, ...]:
    """Nothing where all agree."""
    found = (_nozzle(case), _part(case), _window(case), _material(case), _hardness(case), _flow(case))
    return tuple(finding for finding in found if finding is not None)


def _nozzle(case: Case) -> Finding | None:
    told, fitted = case.size("nozzle.diameter"), case.quantity("machine.nozzle_diameter")
    if told is None or fitted is None or told == fitted:
        return None
    text = (
        f"The text is for a nozzle of {mm(told)}, the facts name one of {mm(fitted)}. Flow, layers and beads fit one "
        "of them only."
    )
    return Finding(
        "facts-nozzle",
        "caution",
        TITLE,
        text,
        after=mm(told),
        limit=mm(fitted),
        source=FACTS,
        ask=ask("machine.nozzle_diameter"),
        settings=("nozzle.diameter",),
        reason="two-nozzles",
    )


def _part(case: Case) -> Finding | None:
    thickness, least = case.quantity("part.thickness"), case.quantity("part.minimum_wall")
    if thickness is None or least is None or least <= thickness:
        return None
    text = f"The part is {mm(thickness)} thick, but is to keep a wall of {mm(least)}."
    return Finding(
        "facts-wall",
        "caution",
        TITLE,
        text,
        source=FACTS,
        ask=ask("part.minimum_wall"),
        reason="part-thinner-than-wall",
    )


def _window(case: Case) -> Finding | None:
    """A spool that wants more heat than the machine gives."""
    window, most = case.window("spool.nozzle_window"), case.quantity("machine.maximum_nozzle_temperature")
    if window is None or most is None or window[0] <= most:
        return None
    text = (
        f"The spool wants at least {degrees(window[0])}, the machine gives at most {degrees(most)}: this spool is "
        "not for this machine."
    )
    return Finding(
        "facts-heat",
        "caution",
        TITLE,
        text,
        source=FACTS,
        ask=ask("spool.nozzle_window"),
        settings=("nozzle.temperature",),
        reason="spool-too-hot-for-machine",
    )


def _material(case: Case) -> Finding | None:
    """A label's window that the named material does not have at all: mostly another spool's."""
    window, found = case.window("spool.nozzle_window"), of_spool(case)
    usual = found.ranges.get("nozzle_temperature") if found else None
    if window is None or usual is None or (window[0] <= usual.high and usual.low <= window[1]):
        return None
    text = (
        f"The label's {degrees(window[0])} to {degrees(window[1])} has nothing in common with what is usual for "
        f"{case.word('spool.material')} ({usual.show()}): is it this spool's?"
    )
    return Finding(
        "facts-spool",
        "note",
        TITLE,
        text,
        source=usual.source,
        ask=ask("spool.material"),
        reason="another-spools-label",
    )


def _hardness(case: Case) -> Finding | None:
    """A label's hardness that means another modulus than the material's name does."""
    named, labelled = material_modulus(case), hardness_modulus(case)
    if named is None or labelled is None or case.quantity("spool.modulus") is not None:
        return None
    apart = middle(labelled.mpa) / middle(named.mpa)
    if 1 / APART <= apart <= APART:
        return None
    text = (
        f"The label's hardness means a plastic of {bracket(labelled.mpa, 'MPa')}, the name {spool_name(case)} one of "
        f"{bracket(named.mpa, 'MPa')}. A modulus from the data sheet would settle it."
    )
    source = f"{labelled.source}; {named.source}"
    return Finding(
        "facts-hardness",
        "note",
        TITLE,
        text,
        source=source,
        ask=ask("spool.modulus"),
        reason="hardness-and-name-differ",
    )


def middle(held: Bracket) -> float:
    """The geometric middle of a bracket above zero."""
    return math.sqrt(held.low * held.high)


def _flow(case: Case) -> Finding | None:
    """The text's own flow limit, which slicing software slows down by, above what the spool gives."""
    own, spool = case.size("filament.maximum_flow"), case.quantity("spool.maximum_flow")
    if own is None or spool is None or own <= spool:
        return None
    text = (
        f"The text lets the flow go up to {shown(own, 'mm³/s')}, but the spool gives {shown(spool, 'mm³/s')}: lower "
        "it, so that your slicing software slows down where it must."
    )
    before = case.before("filament.maximum_flow")
    return Finding(
        "facts-flow",
        "note",
        FLOW_TITLE,
        text,
        before=shown(before, "mm³/s") if before else "",
        after=shown(own, "mm³/s"),
        limit=shown(spool, "mm³/s"),
        source=FACTS,
        settings=("filament.maximum_flow",),
        reason="text-allows-more-flow",
    )
