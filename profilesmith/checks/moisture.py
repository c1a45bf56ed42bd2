"""Moisture: how long an open strand lies until it is half wet, and what drying leaves in it. A spool is slower."""

from profilesmith.checks.case import Case
from profilesmith.checks.finding import amount, between
from profilesmith.checks.materials import flexible, of_spool, spool_name
from profilesmith.ledger.judgement import Amount, Finding
from profilesmith.physics.answer import Bracket, NotValid
from profilesmith.physics.drying import ROOM_C, drying_time_h, moisture_left_after, warming_speedup_ratio

CHECK = "moisture"
# Of TPU of 60A to 98A in saline: preprints 202604.1293 (2026). Nothing is known of plasticised PLA or TPS.
DIFFUSIVITY_M2_S = Bracket(1.06e-12, 3.40e-12)
KNOWN = ("TPU 95A", "TPU 85A")
ACTIVATION_KJ_MOL = Bracket(35.0, 45.0)  # from memory, not confirmed
HALF = 0.5
SOURCE = (
    "diffusion out of a round strand (Crank 1975); 1.1e-12 to 3.4e-12 m2/s of TPU in saline at "
    "room temperature (preprints "
    "202604.1293); 35 to 45 kJ/mol: from memory"
)


def check(case: Case) -> tuple[Finding, ...]:
    """None for a spool that is rigid or of which nobody said what it is."""
    plastic = of_spool(case)
    if not flexible(case):
        return ()
    if plastic is None or plastic.key not in KNOWN:
        return (Finding(CHECK, "not judged", reason="uptake-not-published", names=(spool_name(case),)),)
    diameter = case.size("filament.diameter") or 1.75
    half, left = half_time_h(diameter), left_after_drying(case, diameter)
    wet = left is not None and left.low > HALF
    dried = _dried(case) if left is not None else ()
    return (
        Finding(
            CHECK,
            "note" if wet else "passed",
            reason="dried-too-short" if wet else "takes-up-moisture",
            amounts=(*between("half-wet", half, "h"), *between("left", left, "%", 100), *dried),
            source=SOURCE,
        ),
    )


def _dried(case: Case) -> tuple[Amount, ...]:
    seconds = case.quantity("spool.drying_time") or 0.0
    warm = case.quantity("spool.drying_temperature") or 0.0
    return (*amount("dried-for", seconds / 3600, "h"), *amount("dried-at", warm, "°C"))


def half_time_h(diameter_mm: float) -> Bracket:
    """Hours until an open strand at room temperature holds half of what it can [h]."""
    slow, fast = DIFFUSIVITY_M2_S.low, DIFFUSIVITY_M2_S.high
    return Bracket(drying_time_h(HALF, diameter_mm, fast), drying_time_h(HALF, diameter_mm, slow))


def left_after_drying(case: Case, diameter_mm: float) -> Bracket | None:
    """Share of the moisture that the spool's own drying leaves in an open strand; None without its facts."""
    warm, seconds = case.quantity("spool.drying_temperature"), case.quantity("spool.drying_time")
    if warm is None or seconds is None:
        return None
    faster = [warming_speedup_ratio(energy, ROOM_C, warm) for energy in (ACTIVATION_KJ_MOL.low, ACTIVATION_KJ_MOL.high)]
    sped = [ratio for ratio in faster if not isinstance(ratio, NotValid)]
    if len(sped) < 2:
        return None
    ends = (DIFFUSIVITY_M2_S.high * max(sped), DIFFUSIVITY_M2_S.low * min(sped))
    low, high = (moisture_left_after(seconds / 3600, diameter_mm, diffusivity) for diffusivity in ends)
    return Bracket(low, high)
