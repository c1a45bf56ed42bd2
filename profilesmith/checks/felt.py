"""Felt stiffness: how hard the part pushes back, in newtons a millimetre, beside what the rigid one did."""

from profilesmith.checks.amounts import bracket, mm
from profilesmith.checks.case import Case, ask
from profilesmith.checks.finding import not_judged, not_said
from profilesmith.checks.materials import Modulus, modulus, rigid_modulus, spool_name
from profilesmith.checks.strip import bars, second_moment_per_width_mm3
from profilesmith.ledger.judgement import Amount, Finding
from profilesmith.physics.answer import Bracket
from profilesmith.physics.section import SLENDER, tip_stiffness_n_per_mm
from profilesmith.profile.profile import Profile

CHECK, TITLE = "felt-stiffness", "How hard it pushes back"
UNIT = "N/mm"
PUSHED = 0.1  # of the free length: as far as the beam formula reaches
LAW_HOLDS_A = (60, 90)  # Shore hardness between which the modulus is good to a factor of two
NEEDED = ("part.thickness", "part.width", "part.free_length")
SETTINGS = ("wall.count", "top.layers", "bottom.layers", "infill.density", "layer.height", "bead.width")
SOURCE = (
    "strip held at one end, pushed at the other: k = 3 E I / L^3 (handbook beam formula), up "
    "to a tenth of its length; I "
    "as for the stiffness of walls and filling"
)


def check(case: Case) -> tuple[Finding, ...]:
    """None where nobody asks: without a free length there is no such number."""
    if case.quantity("part.free_length") is None:
        return ()
    for fact in NEEDED:
        if not case.quantity(fact):
            return (not_judged(CHECK, TITLE, "the size of the strip that bends is not known", ask(fact), SETTINGS),)
    own = modulus(case)
    if own is None:
        return (not_said(CHECK, TITLE, "how soft the filament is", ask("spool.hardness"), SETTINGS),)
    length, thickness = case.quantity("part.free_length") or 0.0, case.quantity("part.thickness") or 0.0
    if length < SLENDER * thickness:
        reason = f"a strip of {mm(length)} that is {mm(thickness)} thick is too stubby for the beam formula"
        return (not_judged(CHECK, TITLE, reason, "How does a printed strip feel?", SETTINGS),)
    now = tip_stiffness(case, case.now, own)
    if isinstance(now, str):
        return (not_judged(CHECK, TITLE, f"the text does not tell {now}", settings=(now,)),)
    return (_finding(case, now, own, length),)


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
    force = bracket(now, "N", PUSHED * length)
    text = f"Held at one end and pushed at the other, {mm(length)} away, it gives by a tenth of that under {force}."
    rigid = None if case.derived is None else tip_stiffness(case, case.base, rigid_modulus())
    if isinstance(rigid, Bracket):
        text += f" In rigid PLA the old profile made a strip of {bracket(rigid, UNIT)}."
    hardness = case.hardness()
    if hardness is not None and hardness.scale == "A" and not LAW_HOLDS_A[0] <= hardness.number <= LAW_HOLDS_A[1]:
        text += f" A hardness outside {LAW_HOLDS_A[0]} to {LAW_HOLDS_A[1]} Shore A tells the modulus less well."
    return Finding(
        CHECK,
        "note",
        TITLE,
        text,
        reason="felt-stiffness",
        amounts=(Amount("after", now.low, now.high, UNIT),),
        before=bracket(rigid, UNIT) if isinstance(rigid, Bracket) else "",
        after=bracket(now, UNIT),
        source=f"{SOURCE}; modulus of {spool_name(case)}: {own.source}; rigid PLA: {rigid_modulus().source}",
        ask="" if case.quantity("spool.modulus") is not None else ask("spool.modulus"),
        settings=SETTINGS,
    )
