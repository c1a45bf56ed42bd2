"""Buckling below the gears: at which share of the push that rigid PLA stands a softer strand gives way. A ranking
only.
"""

from profilesmith.checks.case import Case, ask
from profilesmith.checks.finding import amount, between
from profilesmith.checks.materials import flexible, modulus, rigid_modulus, spool_name
from profilesmith.ledger.judgement import Finding, Verdict
from profilesmith.physics.answer import Bracket
from profilesmith.physics.buckling import LARGEST_STRAIN, buckling_load_ratio, buckling_strain_share

CHECK = "buckling"
# A strand that stands less than this share of the push needs a closed path from gear to nozzle (own threshold).
WEAK = 0.2
SOURCE = "Euler's column in one gap, compared with rigid PLA only: Timoshenko and Gere 1961 (from memory)"
SETTINGS = ("filament.diameter",)
AS_RIGID = 0.8  # of the push of rigid PLA is about as much (own threshold)


def check(case: Case) -> tuple[Finding, ...]:
    """None for a rigid spool."""
    if flexible(case) is False:
        return ()
    own = modulus(case)
    if own is None:
        asked = ask("spool.material")
        return (Finding(CHECK, "not judged", reason="filament-not-said", ask=asked, settings=SETTINGS),)
    diameter, rigid = case.size("filament.diameter") or 1.75, rigid_modulus().mpa  # one diameter: it drops out
    ratio = Bracket(
        buckling_load_ratio(rigid.high, diameter, own.mpa.low, diameter),
        buckling_load_ratio(rigid.low, diameter, own.mpa.high, diameter),
    )
    gap = case.quantity("machine.unguided_gap")
    verdict, reason = _reason(ratio, gap, diameter)
    return (
        Finding(
            CHECK,
            verdict,
            reason=reason,
            names=(spool_name(case),),
            amounts=(*between("after", ratio, "%", 100), *amount("gap", gap, "mm")),
            source=f"{SOURCE}; modulus: {own.source}; rigid PLA: {rigid_modulus().source}",
            ask=ask("machine.unguided_gap") if gap is None else "",
            settings=SETTINGS,
        ),
    )


def _reason(ratio: Bracket, gap: float | None, diameter: float) -> tuple[Verdict, str]:
    if ratio.low >= AS_RIGID:
        return "passed", "stands-as-rigid"
    if gap is None:
        return "note", "buckles-unguided"
    if gap == 0:
        return "passed", "no-gap"
    if buckling_strain_share(diameter, gap) > LARGEST_STRAIN:
        return "not judged", "gap-too-short"
    return "caution" if ratio.high < WEAK else "note", "gap-to-buckle-in"
