"""Flow: does any feature need more plastic a second than the spool or the hot end gives?"""

from typing import NamedTuple

from profilesmith.checks.amounts import apart, few, percent, shown
from profilesmith.checks.beads import Bead, beads, missing_for_beads
from profilesmith.checks.case import Case, ask
from profilesmith.checks.finding import not_judged, not_said
from profilesmith.checks.materials import Range, spool_name, spool_range
from profilesmith.foundation.words import listed
from profilesmith.ledger.judgement import Finding

UNIT = "mm³/s"
SOURCE = "flow = area of the bead (a flat strip with round edges) times speed: geometry"
_EDGE = 1 + 1e-6  # a speed that was held to the flow itself


class Limit(NamedTuple):
    """flow: the most that is sure to be given, up to: the most that any spool of its kind gives. fact: what settles it."""

    check: str
    title: str
    whose: str
    flow: float
    up_to: float
    source: str
    fact: str


def check(case: Case) -> tuple[Finding, ...]:
    """One finding for the spool and one for the hot end."""
    now = beads(case.now)
    spool, machine = _spool(case), case.quantity("machine.maximum_flow")
    if not now:
        missing = missing_for_beads(case)
        reason = f"the text does not tell {missing}" if missing else "every bead is narrower than its layer is high"
        return (not_judged("flow-spool", "Flow through the nozzle", reason, settings=(missing,) if missing else ()),)
    found = [_judge(case, now, spool)] if spool else []
    if spool is None:
        most = max(now, key=lambda bead: bead.flow_mm3_s)
        known = f"The {most.name} needs {shown(most.flow_mm3_s, UNIT)}."
        title, reason = "Flow the spool gives", "how much this spool gives"
        found.append(not_said("flow-spool", title, reason, ask("spool.maximum_flow"), (most.setting,), known))
    if machine is not None:
        title = "Flow the hot end melts"
        limit = Limit(
            "flow-machine", title, "the hot end melts", machine, machine, "the facts file", "machine.maximum_flow"
        )
        found.append(_judge(case, now, limit))
    return tuple(found)


def _spool(case: Case) -> Limit | None:
    told = case.quantity("spool.maximum_flow")
    title = "Flow the spool gives"
    if told is not None:
        return Limit("flow-spool", title, "the spool gives", told, told, "the facts file", "spool.maximum_flow")
    usual: Range | None = spool_range(case, "maximum_flow")
    if usual is None:
        return None
    whose = f"{spool_name(case)} usually gives"
    return Limit("flow-spool", title, whose, usual.low, usual.high, usual.source, "spool.maximum_flow")


def _judge(case: Case, now: list[Bead], limit: Limit) -> Finding:
    most = max(now, key=lambda bead: bead.flow_mm3_s)
    over = [bead for bead in now if bead.flow_mm3_s > limit.flow * _EDGE]
    after, most_allowed = apart(most.flow_mm3_s, limit.flow)
    unsure = limit.up_to > limit.flow
    finding = Finding(
        limit.check,
        "passed",
        limit.title,
        "",
        before=_before(case, most),
        after=f"{after} {UNIT}",
        limit=f"{most_allowed} to {few(limit.up_to)} {UNIT}" if unsure else f"{most_allowed} {UNIT}",
        headroom="" if over else percent(1 - most.flow_mm3_s / limit.flow),
        source=f"{SOURCE}; limit: {limit.source}",
        ask=ask(limit.fact) if unsure else "",
        settings=tuple(bead.setting for bead in over or [most]),
    )
    if not over:
        text = f"The {most.name} needs the most, at {shown(most.speed_mm_s, 'mm/s')}; all features stay below what {limit.whose}."
        return finding._replace(text=text)
    return _over(case, finding, over, limit)


def _before(case: Case, most: Bead) -> str:
    """What the same feature needed."""
    if case.derived is None:
        return ""
    old = next((bead for bead in beads(case.base) if bead.feature == most.feature), None)
    return shown(old.flow_mm3_s, UNIT) if old else ""


def _over(case: Case, finding: Finding, over: list[Bead], limit: Limit) -> Finding:
    needs = listed(f"{bead.name} {few(bead.flow_mm3_s)}" for bead in sorted(over, key=lambda bead: -bead.flow_mm3_s))
    text = f"More than {limit.whose}: {needs} {UNIT}. Slowed to {_speeds(over, limit.flow)}, they would stay below."
    own = case.size("filament.maximum_flow")
    if own is not None and own <= limit.flow * _EDGE:
        text += f" The text's own flow limit of {shown(own, UNIT)} has to slow them down: see that your slicing software does so."
        return finding._replace(verdict="note", text=text)
    if all(bead.flow_mm3_s <= limit.up_to * _EDGE for bead in over):
        return finding._replace(verdict="note", text=f"{text} Some spools give up to {shown(limit.up_to, UNIT)}.")
    return finding._replace(
        verdict="caution", text=f"{text} Too fast, gears slip or the strand buckles, and walls have gaps."
    )


def _speeds(over: list[Bead], flow: float) -> str:
    speeds = [bead.speed_at(flow) for bead in over]
    low, high = int(min(speeds)), int(max(speeds))
    return f"{low} to {high} mm/s" if high > low else f"{few(min(speeds))} mm/s" if low < 1 else f"{low} mm/s"
