"""Buckling below the gears: at which share of the push that rigid PLA stands a softer strand gives way. A ranking
only.
"""

from profilesmith.checks.amounts import bracket, mm
from profilesmith.checks.case import Case, ask
from profilesmith.checks.finding import not_said
from profilesmith.checks.materials import flexible, modulus, rigid_modulus, spool_name
from profilesmith.ledger.judgement import Amount, Finding, Verdict
from profilesmith.physics.answer import Bracket
from profilesmith.physics.buckling import LARGEST_STRAIN, buckling_load_ratio, buckling_strain_share

CHECK, TITLE = "buckling", "Pushing the filament"
# A strand that stands less than this share of the push needs a closed path from gear to nozzle (own threshold).
WEAK = 0.2
SOURCE = "Euler's column in one gap, compared with rigid PLA only: Timoshenko and Gere 1961 (from memory)"
SETTINGS = ("filament.diameter",)
SHORT = (
    "A gap of {gap} is too short for the theory of a slender column. {text} "
    "Soft strands squeeze out of such gaps all the same (common practice): see that the path "
    "from gear to nozzle is closed."
)


def check(case: Case) -> tuple[Finding, ...]:
    """None for a rigid spool."""
    if flexible(case) is False:
        return ()
    own = modulus(case)
    if own is None:
        reason = "which filament it is"
        return (not_said(CHECK, TITLE, reason, ask("spool.material"), SETTINGS),)
    diameter, rigid = case.size("filament.diameter") or 1.75, rigid_modulus().mpa  # one diameter: it drops out
    ratio = Bracket(
        buckling_load_ratio(rigid.high, diameter, own.mpa.low, diameter),
        buckling_load_ratio(rigid.low, diameter, own.mpa.high, diameter),
    )
    verdict, reason, text = _words(case, ratio, diameter)
    return (
        Finding(
            CHECK,
            verdict,
            TITLE,
            text,
            after=f"{bracket(ratio, '%', 100)} of rigid PLA",
            source=f"{SOURCE}; modulus: {own.source}; rigid PLA: {rigid_modulus().source}",
            ask="" if case.quantity("machine.unguided_gap") is not None else ask("machine.unguided_gap"),
            settings=SETTINGS,
            reason=reason,
            amounts=(Amount("after", ratio.low * 100, ratio.high * 100, "%"),),
        ),
    )


def _words(case: Case, ratio: Bracket, diameter: float) -> tuple[Verdict, str, str]:
    if ratio.low >= 0.8:
        return "passed", "stands-as-rigid", f"{spool_name(case)} stands about the push of rigid PLA.".capitalize()
    text = (
        f"Where nothing guides it, {spool_name(case)} buckles at {bracket(ratio, '%', 100)} of the force that "
        "rigid PLA withstands."
    )
    gap = case.quantity("machine.unguided_gap")
    if gap is None:
        return "note", "buckles-unguided", f"{text} Slow, even laying keeps the push small."
    if gap == 0:
        return "passed", "no-gap", f"{text} Your machine leaves it no gap in which it could."
    if buckling_strain_share(diameter, gap) > LARGEST_STRAIN:
        return "not judged", "gap-too-short", SHORT.format(gap=mm(gap), name=spool_name(case), text=text)
    verdict: Verdict = "caution" if ratio.high < WEAK else "note"
    return (
        verdict,
        "gap-to-buckle-in",
        f"{text} In your gap of {mm(gap)} it has room to do so: close the path, or lay slowly.",
    )
