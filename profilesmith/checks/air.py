"""Air: drying a spool, and how long water takes to come and go; cooling a small layer, and a bead that hangs free."""

from profilesmith.checks.amounts import amount, between
from profilesmith.checks.case import Case, ask
from profilesmith.checks.materials import Range, flexible, of_spool, spool_name, spool_range
from profilesmith.ledger.judgement import Amount, Finding, Verdict
from profilesmith.physics.answer import Bracket, NotValid
from profilesmith.physics.drying import (
    ROOM_C,
    drying_time_h,
    glassy_drying_ceiling_c,
    moisture_left_after,
    warming_speedup_ratio,
)

CHECK = "drying"
SOURCE = "drying 5 to 10 °C below softening: common practice, no source; the labels of spool and dryer go before it"
MARGIN_C, SAFE_C = 5.0, 10.0


def check_drying(case: Case) -> tuple[Finding, ...]:
    """None where nobody says that the spool is dried and it is not known to be soft."""
    dried = case.quantity("spool.drying_temperature")
    if dried is None:
        asked = ask("spool.drying_temperature")
        return (Finding(CHECK, "not judged", reason="drying-not-said", ask=asked),) if flexible(case) else ()
    softens, usual = case.quantity("spool.softening_temperature"), spool_range(case, "drying_temperature")
    if softens is not None:
        return (_softening(dried, softens),)
    if usual is None:
        asked, amounts = ask("spool.softening_temperature"), amount("after", dried, "°C")
        return (Finding(CHECK, "not judged", reason="softening-not-said", amounts=amounts, ask=asked),)
    return (_usual(case, dried, usual),)


def _against(dried: float, ceiling: float) -> tuple[Amount, ...]:
    room = ceiling - dried if dried < ceiling else None
    return (*amount("after", dried, "°C"), *amount("most", ceiling, "°C"), *amount("headroom", room, "°C"))


def _softening(dried: float, softens: float) -> Finding:
    """Against the softening point that the spool's data sheet names."""
    verdict, reason = _reason(dried, softens)
    amounts = (*_against(dried, softens - SAFE_C), *amount("softens", softens, "°C"))
    return Finding(CHECK, verdict, reason=reason, amounts=amounts, source=SOURCE)


def _reason(dried: float, softens: float) -> tuple[Verdict, str]:
    if dried >= softens:
        return "stop", "windings-stick"
    if dried > softens - MARGIN_C:
        return "caution", "close-to-softening"
    return ("note", "near-softening") if dried > softens - SAFE_C else ("passed", "below-softening")


def _usual(case: Case, dried: float, usual: Range) -> Finding:
    """Against what is usual for the material, and its glass transition where it is glassy when cold."""
    ceiling = usual.high
    glass = spool_range(case, "glass_transition")
    glassy = glassy_drying_ceiling_c(glass.low) if glass else None
    if isinstance(glassy, Bracket):
        # Never below what is usually done, for the transition's range is that of all grades.
        ceiling = max(glassy.low, usual.high)
    warm = dried > ceiling
    return Finding(
        CHECK,
        "note" if warm else "passed",
        reason="warmer-than-usual" if warm else "dried-as-usual",
        names=(spool_name(case),),
        amounts=(*_against(dried, ceiling), Amount("usual", usual.low, usual.high, usual.unit)),
        source=f"{SOURCE}; usual for the material: {usual.source}",
        ask=ask("spool.softening_temperature") if warm else "",
    )


MOISTURE = "moisture"
# Of TPU of 60A to 98A in saline: preprints 202604.1293 (2026). Nothing is known of plasticised PLA or TPS.
DIFFUSIVITY_M2_S = Bracket(1.06e-12, 3.40e-12)
KNOWN = ("TPU 95A", "TPU 85A")
ACTIVATION_KJ_MOL = Bracket(35.0, 45.0)  # from memory, not confirmed
HALF = 0.5
MOISTURE_SOURCE = (
    "diffusion out of a round strand (Crank 1975); 1.1e-12 to 3.4e-12 m2/s of TPU in saline at "
    "room temperature (preprints "
    "202604.1293); 35 to 45 kJ/mol: from memory"
)


def check_moisture(case: Case) -> tuple[Finding, ...]:
    """None for a spool that is rigid or of which nobody said what it is."""
    plastic = of_spool(case)
    if not flexible(case):
        return ()
    if plastic is None or plastic.key not in KNOWN:
        return (Finding(MOISTURE, "not judged", reason="uptake-not-published", names=(spool_name(case),)),)
    diameter = case.size("filament.diameter") or 1.75
    half, left = half_time_h(diameter), left_after_drying(case, diameter)
    wet = left is not None and left.low > HALF
    dried = _dried(case) if left is not None else ()
    return (
        Finding(
            MOISTURE,
            "note" if wet else "passed",
            reason="dried-too-short" if wet else "takes-up-moisture",
            amounts=(*between("half-wet", half, "h"), *between("left", left, "%", 100), *dried),
            source=MOISTURE_SOURCE,
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


TIME, BRIDGE = "cooling-time", "cooling-bridges"
# Least time of a layer: common practice, no source.
RIGID_S, SOFT_S = 5.0, 8.0
TIME_SOURCE = "at least 5 s a layer, 8 s for soft filament: common practice, no source"
BRIDGE_SOURCE = "bridges with at least the fan's usual power: common practice, no source"


def check_cooling(case: Case) -> tuple[Finding, ...]:
    """What the text tells nothing of is not judged at all."""
    findings = (_time(case), _bridges(case))
    return tuple(finding for finding in findings if finding is not None)


def _time(case: Case) -> Finding | None:
    now = case.number("layer.minimum_time")
    if now is None:
        return None
    soft = flexible(case)
    least = RIGID_S if soft is False else SOFT_S
    verdict: Verdict = "passed"
    reason = "time-to-set"
    if soft is None and RIGID_S <= now < SOFT_S:
        reason = "time-for-rigid-only"
    elif now < least:
        verdict, reason = "note", "too-little-time-to-set"
    return Finding(
        TIME,
        verdict,
        reason=reason,
        amounts=(
            *amount("before", case.before("layer.minimum_time"), "s"),
            *amount("after", now, "s"),
            *amount("least", least, "s"),
            *amount("headroom", now - least if now > least else None, "s"),
            *amount("soft", SOFT_S, "s"),
        ),
        source=TIME_SOURCE,
        settings=("layer.minimum_time",),
    )


def _bridges(case: Case) -> Finding | None:
    bridge, fan = case.number("bridge.fan"), case.number("fan.power")
    if bridge is None or fan is None:
        return None
    return Finding(
        BRIDGE,
        "passed" if bridge >= fan else "note",
        reason="bridges-cooled" if bridge >= fan else "bridges-less-air",
        amounts=(
            *amount("before", case.before("bridge.fan"), "%"),
            *amount("after", bridge, "%"),
            *amount("least", fan, "%"),
            *amount("headroom", bridge - fan if bridge > fan else None, "%"),
        ),
        source=BRIDGE_SOURCE,
        settings=("bridge.fan", "fan.power"),
    )
