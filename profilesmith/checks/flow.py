"""Flow: does any feature need more plastic a second than the spool or the hot end gives?"""

from profilesmith.checks.amounts import apart, bracket, few, mm, percent, shown
from profilesmith.checks.beads import Bead, beads, missing_for_beads, unseen
from profilesmith.checks.case import Case, ask
from profilesmith.checks.finding import amount, not_judged, not_said
from profilesmith.checks.materials import Range, spool_name, spool_range
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.words import listed
from profilesmith.ledger.judgement import Amount, Finding
from profilesmith.physics import melt
from profilesmith.physics.answer import Bracket

UNIT = "mm³/s"
SPOOL_TITLE = "Flow the spool gives"
SOURCE = "flow = area of the bead (a flat strip with round edges) times speed: geometry"
_EDGE = 1 + 1e-6  # a speed that was held to the flow itself


_AT_LIMIT = 0.01  # less room than this is none
TABLE_NOZZLE_MM = 0.4
"""The nozzle of the limits in materials.toml, and of a spool's limit beside which none is named (common practice)."""
# Powers of the viscosity of plastics melts from PLA to ABS: Acierno and Patti 2023, doi 10.3390/ma16247664. None is
# published for soft filament.
POWERS = (0.29, 0.49)


class Limit(NamedTuple):
    """flow: the most that is sure to be given, up to: the most that any spool of its kind gives. fact: what
    settles it.
    """

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
    if not now:
        missing = missing_for_beads(case)
        reason = f"the text does not tell {missing}" if missing else "every bead is narrower than its layer is high"
        return (not_judged("flow-spool", SPOOL_TITLE, reason, settings=(missing,) if missing else ()),)
    machine = case.quantity("machine.maximum_flow")
    found = [_of_spool(case, now)]
    if machine is not None:
        title = "Flow the hot end melts"
        limit = Limit(
            "flow-machine", title, "the hot end melts", machine, machine, "the facts file", "machine.maximum_flow"
        )
        found.append(_judge(case, now, limit))
    return tuple(found)


def spool_limit(case: Case) -> Limit | None:
    """What the spool gives through the nozzle that its limit belongs to; None where nobody told and none is usual."""
    told = case.quantity("spool.maximum_flow")
    if told is not None:
        return Limit("flow-spool", SPOOL_TITLE, "the spool gives", told, told, "the facts file", "spool.maximum_flow")
    usual: Range | None = spool_range(case, "maximum_flow")
    if usual is None:
        return None
    whose = f"{spool_name(case)} usually gives"
    return Limit("flow-spool", SPOOL_TITLE, whose, usual.low, usual.high, usual.source, "spool.maximum_flow")


def limit_nozzle_mm(case: Case) -> float:
    """The nozzle that the spool's limit belongs to; that of a table where only the material is known."""
    own = case.quantity("spool.maximum_flow_nozzle") if case.quantity("spool.maximum_flow") is not None else None
    return own or TABLE_NOZZLE_MM


def _of_spool(case: Case, now: list[Bead]) -> Finding:
    limit, most = spool_limit(case), max(now, key=lambda bead: bead.flow_mm3_s)
    needs = f"The {most.name} needs {shown(most.flow_mm3_s, UNIT)}."
    if limit is None:
        reason = "how much this spool gives"
        return not_said("flow-spool", SPOOL_TITLE, reason, ask("spool.maximum_flow"), (most.setting,), needs)
    fitted, own = case.nozzle(), limit_nozzle_mm(case)
    if case.nozzles_differ():
        reason = "the text and the facts name different nozzles, and a largest flow belongs to a nozzle"
        return not_judged("flow-spool", SPOOL_TITLE, reason, ask("machine.nozzle_diameter"), (most.setting,), needs)
    if fitted is not None and fitted != own:
        return _other_nozzle(fitted, own, limit, most, needs)
    measured = case.measured.after.flow_mm3_s
    found = _judge(case, now, limit) if measured is None else _judge_measured(measured, limit)
    if fitted is None:
        return found._replace(
            text=f"{found.text} The nozzle is taken for one of {mm(own)}: nobody said how wide it is."
        )
    return found


def _other_nozzle(fitted: float, own: float, limit: Limit, most: Bead, needs: str) -> Finding:
    """A limit of another nozzle says nothing of this one, but for the pressure at one and the same flow."""
    span = f"{few(limit.flow)} to {few(limit.up_to)}" if limit.up_to > limit.flow else few(limit.flow)
    reason = f"the limit of {span} {UNIT} is that of a nozzle of {mm(own)}, and {mm(fitted)} is fitted"
    found = [melt.equal_flow_pressure_ratio(own, fitted, power) for power in POWERS]
    ratios = [ratio for ratio in found if isinstance(ratio, float)]
    less = Bracket(1 / max(ratios), 1 / min(ratios)) if fitted > own else Bracket(min(ratios), max(ratios))
    pressure = f"At one flow it needs {bracket(less)} times {'less' if fitted > own else 'more'} pressure."
    asked = ask("spool.maximum_flow_nozzle")
    return not_judged("flow-spool", SPOOL_TITLE, reason, asked, (most.setting,), f"{needs} {pressure}")


def _judge(case: Case, now: list[Bead], limit: Limit) -> Finding:
    most = max(now, key=lambda bead: bead.flow_mm3_s)
    over = [bead for bead in now if bead.flow_mm3_s > limit.flow * _EDGE]
    after, most_allowed = apart(most.flow_mm3_s, limit.flow)
    unsure = limit.up_to > limit.flow
    amounts = (*amount("after", most.flow_mm3_s, UNIT), Amount("limit", limit.flow, max(limit.up_to, limit.flow), UNIT))
    finding = Finding(
        limit.check,
        "passed",
        limit.title,
        "",
        before=_before(case),
        after=f"{after} {UNIT}",
        limit=f"{most_allowed} to {few(limit.up_to)} {UNIT}" if unsure else f"{most_allowed} {UNIT}",
        headroom="" if over else _room(1 - most.flow_mm3_s / limit.flow),
        source=f"{SOURCE}; limit: {limit.source}",
        ask=ask(limit.fact) if unsure else "",
        settings=tuple(bead.setting for bead in over or [most]),
    )
    if not over:
        roomy, hidden = 1 - most.flow_mm3_s / limit.flow >= _AT_LIMIT, unseen(case.now)
        below = "all that was read stay below" if hidden else "all features stay below"
        stay = below if roomy else "it is at the limit of"
        text = f"The {most.name} needs the most, at {shown(most.speed_mm_s, 'mm/s')}; {stay} what {limit.whose}."
        text += f" No speed was read for {listed(hidden)}: not judged." if hidden else ""
        return finding._replace(text=text, reason="flow-below-limit" if roomy else "flow-at-limit", amounts=amounts)
    return _over(case, finding._replace(amounts=amounts), over, limit)


def _judge_measured(flow: float, limit: Limit) -> Finding:
    """The most of any line of the motion file, in place of all that the settings would allow."""
    after, most = apart(flow, limit.flow)
    over = flow > limit.flow * _EDGE
    text = f"The fastest line of the motion file needs {after} {UNIT}; {limit.whose} {most} {UNIT}."
    return Finding(
        limit.check,
        "caution" if over else "passed",
        limit.title,
        text,
        after=f"{after} {UNIT}",
        limit=f"{most} {UNIT}",
        headroom="" if over else _room(1 - flow / limit.flow),
        source=f"the motion file; limit: {limit.source}",
        settings=("filament.maximum_flow",),
        reason="flow-above-limit" if over else "flow-below-limit",
        amounts=(*amount("after", flow, UNIT), *amount("limit", limit.flow, UNIT)),
    )


def _room(share: float) -> str:
    """What is left below the limit; next to nothing is none."""
    return percent(share) if share >= _AT_LIMIT else ""


def _before(case: Case) -> str:
    """The most that any feature needed: it may have been another one than now."""
    olds = [] if case.derived is None else [bead.flow_mm3_s for bead in beads(case.base)]
    return shown(max(olds), UNIT) if olds else ""


def _over(case: Case, finding: Finding, over: list[Bead], limit: Limit) -> Finding:
    needs = listed(f"{bead.name} {few(bead.flow_mm3_s)}" for bead in sorted(over, key=lambda bead: -bead.flow_mm3_s))
    text = f"More than {limit.whose}: {needs} {UNIT}. Slowed to {_speeds(over, limit.flow)}, they would stay below."
    own = case.size("filament.maximum_flow")
    if own is not None and own <= limit.flow * _EDGE:
        text += f" The text's own flow limit of {shown(own, UNIT)} has to slow them down:"
        text += " see that your slicing software does so."
        return finding._replace(verdict="note", text=text, reason="flow-held-by-text")
    if all(bead.flow_mm3_s <= limit.up_to * _EDGE for bead in over):
        text = f"{text} Some spools give up to {shown(limit.up_to, UNIT)}."
        return finding._replace(verdict="note", text=text, reason="flow-above-lower-limit")
    text = f"{text} Too fast, gears slip or the strand buckles, and walls have gaps."
    return finding._replace(verdict="caution", text=text, reason="flow-above-limit")


def _speeds(over: list[Bead], flow: float) -> str:
    speeds = [bead.speed_at(flow) for bead in over]
    low, high = int(min(speeds)), int(max(speeds))
    return f"{low} to {high} mm/s" if high > low else f"{few(min(speeds))} mm/s" if low < 1 else f"{low} mm/s"
