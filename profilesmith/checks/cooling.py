"""Cooling: has a small layer time to set, and is there air where a bead hangs free?"""

from profilesmith.checks.case import Case
from profilesmith.checks.finding import amount
from profilesmith.checks.materials import flexible
from profilesmith.ledger.judgement import Finding, Verdict

TIME, BRIDGE = "cooling-time", "cooling-bridges"
# Least time of a layer: common practice, no source.
RIGID_S, SOFT_S = 5.0, 8.0
TIME_SOURCE = "at least 5 s a layer, 8 s for soft filament: common practice, no source"
BRIDGE_SOURCE = "bridges with at least the fan's usual power: common practice, no source"


def check(case: Case) -> tuple[Finding, ...]:
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
