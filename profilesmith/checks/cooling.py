"""Cooling: has a small layer time to set, and is there air where a bead hangs free?"""

from profilesmith.checks.amounts import few, shown
from profilesmith.checks.case import Case
from profilesmith.checks.materials import flexible
from profilesmith.ledger.judgement import Finding, Verdict

TIME, TIME_TITLE = "cooling-time", "Time for a layer to set"
BRIDGE, BRIDGE_TITLE = "cooling-bridges", "Fan on bridges"
# Least time of a layer: common practice, no source.
RIGID_S, SOFT_S = 5.0, 8.0
TIME_SOURCE = "at least 5 s a layer, 8 s for soft filament: common practice, no source"
BRIDGE_SOURCE = "bridges with at least the fan's usual power: common practice, no source"


def check(case: Case) -> tuple[Finding, ...]:
    """What the text tells nothing of is not judged at all."""
    found = (_time(case), _bridges(case))
    return tuple(finding for finding in found if finding is not None)


def _time(case: Case) -> Finding | None:
    now, before = case.number("layer.minimum_time"), case.before("layer.minimum_time")
    if now is None:
        return None
    soft = flexible(case)
    least = RIGID_S if soft is False else SOFT_S
    verdict: Verdict = "passed"
    text = f"A layer takes at least {few(now)} s."
    if soft is None and RIGID_S <= now < SOFT_S:
        text += " That is enough for rigid plastic; a soft one wants 8 s."
    elif now < least:
        verdict, text = (
            "note",
            (
                f"{text} A small layer is still warm when the next one comes and gives way under the "
                "nozzle: raise it, or print several parts at once."
            ),
        )
    return Finding(
        TIME,
        verdict,
        TIME_TITLE,
        text,
        before="" if before is None else shown(before, "s"),
        after=shown(now, "s"),
        limit=f"at least {few(least)} s",
        headroom=shown(now - least, "s") if now > least else "",
        source=TIME_SOURCE,
        settings=("layer.minimum_time",),
    )


def _bridges(case: Case) -> Finding | None:
    bridge, fan = case.number("bridge.fan"), case.number("fan.power")
    if bridge is None or fan is None:
        return None
    before = case.before("bridge.fan")
    finding = Finding(
        BRIDGE,
        "passed",
        BRIDGE_TITLE,
        "Bridges get at least the air that other beads get.",
        before="" if before is None else shown(before, "%"),
        after=shown(bridge, "%"),
        limit=f"at least {shown(fan, '%')}",
        headroom=shown(bridge - fan, "%") if bridge > fan else "",
        source=BRIDGE_SOURCE,
        settings=("bridge.fan", "fan.power"),
    )
    if bridge >= fan:
        return finding
    text = (
        f"Bridges get less air ({shown(bridge, '%')}) than other beads ({shown(fan, '%')}), though they hang free: "
        "they sag."
    )
    return finding._replace(verdict="note", text=text)
