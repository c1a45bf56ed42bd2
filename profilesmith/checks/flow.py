"""Flow: does any feature need more plastic a second than the spool or the hot end gives, or more speed than its
label allows?
"""

from profilesmith.checks.amounts import amount, between, worse
from profilesmith.checks.beads import FEATURES, Bead, is_laid, missing_for_beads, unseen
from profilesmith.checks.case import Case, ask
from profilesmith.checks.materials import Range, spool_name, spool_range
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger.judgement import Amount, Finding, Verdict
from profilesmith.physics.answer import Bracket

SPOOL, MACHINE = "flow-spool", "flow-machine"
UNIT = "mm³/s"
FACTS_SOURCE = "the facts file"
SOURCE = "flow = area of the bead (a flat strip with round edges) times speed: geometry"
_EDGE = 1 + 1e-6  # a speed that was held to the flow itself, or to the label's own number
AT_LIMIT = 0.01  # less room than this is none
TABLE_NOZZLE_MM = 0.4
"""The nozzle of the limits in materials.toml, and of a spool's limit beside which none is named (common practice)."""
# Powers of the viscosity of plastics melts from PLA to ABS: Acierno and Patti 2023, doi 10.3390/ma16247664. None is
# published for soft filament.
POWERS = (0.29, 0.49)


class FlowLimit(NamedTuple):
    """flow: the most that is sure to be given, up to: the most that any spool of its kind gives. fact: what
    settles it. material: the spool's, where the limit is what is usual for it.
    """

    check: str
    flow: float
    up_to: float
    source: str
    fact: str
    material: tuple[str, ...] = ()


def check(case: Case) -> tuple[Finding, ...]:
    """One finding for the spool and one for the hot end."""
    now = case.laid.of(case.now)
    if not now:
        missing = missing_for_beads(case.now)
        reason = "bead-not-told" if missing else "beads-narrower-than-high"
        return (Finding(SPOOL, "not judged", reason=reason, settings=(missing,) if missing else ()),)
    machine = case.quantity("machine.maximum_flow")
    findings = [_of_spool(case, now)]
    if machine is not None:
        findings.append(_judge(case, now, FlowLimit(MACHINE, machine, machine, FACTS_SOURCE, "machine.maximum_flow")))
    return tuple(findings)


def spool_limit(case: Case) -> FlowLimit | None:
    """What the spool gives through the nozzle that its limit belongs to; None where nobody told and none is usual."""
    most = case.quantity("spool.maximum_flow")
    if most is not None:
        return FlowLimit(SPOOL, most, most, FACTS_SOURCE, "spool.maximum_flow")
    usual: Range | None = spool_range(case, "maximum_flow")
    if usual is None:
        return None
    return FlowLimit(SPOOL, usual.low, usual.high, usual.source, "spool.maximum_flow", (spool_name(case),))


def limit_nozzle_mm(case: Case) -> float:
    """The nozzle that the spool's limit belongs to; that of a table where only the material is known."""
    own = case.quantity("spool.maximum_flow_nozzle") if case.quantity("spool.maximum_flow") is not None else None
    return own or TABLE_NOZZLE_MM


def usual_beside_flow(case: Case) -> Range | None:
    """What is usual for the spool's material, where the largest flow that was told is of another magnitude.

    At one shear rate of the melt the flow goes with the cube of the bore (4 Q / pi r^3, a tube's wall).
    """
    most, usual = case.quantity("spool.maximum_flow"), spool_range(case, "maximum_flow")
    if most is None or usual is None:
        return None
    times = (limit_nozzle_mm(case) / TABLE_NOZZLE_MM) ** 3
    low, high = usual.ends()
    return None if low * min(1.0, times) <= most <= high * max(1.0, times) else usual


def _of_spool(case: Case, now: list[Bead]) -> Finding:
    limit, most = spool_limit(case), max(now, key=lambda bead: bead.flow_mm3_s)
    needs, settings = amount("needs", most.flow_mm3_s, UNIT), (most.setting,)
    if limit is None:
        asked = ask("spool.maximum_flow")
        return Finding(SPOOL, "not judged", reason="flow-not-said", amounts=needs, ask=asked, settings=settings)
    fitted, own = case.nozzle(), limit_nozzle_mm(case)
    if case.nozzles_differ():
        asked = ask("machine.nozzle_diameter")
        return Finding(SPOOL, "not judged", reason="two-nozzles", amounts=needs, ask=asked, settings=settings)
    if fitted is not None and fitted != own:
        amounts = (*needs, *_at_other_nozzle(fitted, own, limit))
        asked = ask("spool.maximum_flow_nozzle")
        reason = "limit-of-another-nozzle"
        return Finding(SPOOL, "not judged", reason=reason, amounts=amounts, ask=asked, settings=settings)
    measured = case.measured.after.flow_mm3_s
    finding = _judge(case, now, limit) if measured is None else _judge_measured(measured, limit)
    if usual_beside_flow(case) is not None:
        finding = _in_doubt(finding)
    if fitted is not None:
        return finding
    return finding._replace(
        also=(*finding.also, "nozzle-not-said"), amounts=(*finding.amounts, *amount("nozzle", own, "mm"))
    )


def _in_doubt(finding: Finding) -> Finding:
    """Beside a limit that is hardly this spool's nothing is cleared, and no room is left."""
    return finding._replace(
        verdict=worse(finding.verdict, "note"),
        also=(*finding.also, "limit-far-from-usual"),
        amounts=tuple(item for item in finding.amounts if item.name != "headroom"),
    )


def _at_other_nozzle(fitted: float, own: float, limit: FlowLimit) -> tuple[Amount, ...]:
    """A limit of another nozzle says nothing of this one, but for the pressure at one and the same flow."""
    from profilesmith.physics import melt

    every = [melt.equal_flow_pressure_ratio(own, fitted, power) for power in POWERS]
    ratios = [ratio for ratio in every if isinstance(ratio, float)]
    times = Bracket(1 / max(ratios), 1 / min(ratios)) if fitted > own else Bracket(min(ratios), max(ratios))
    return (
        *_limit(limit),
        *amount("nozzle", own, "mm"),
        *amount("fitted", fitted, "mm"),
        *between("less-pressure" if fitted > own else "more-pressure", times),
    )


def _limit(limit: FlowLimit) -> tuple[Amount, ...]:
    return (Amount("limit", limit.flow, max(limit.up_to, limit.flow), UNIT),)


def _judge(case: Case, now: list[Bead], limit: FlowLimit) -> Finding:
    most = max(now, key=lambda bead: bead.flow_mm3_s)
    over = [bead for bead in now if bead.flow_mm3_s > limit.flow * _EDGE]
    room = 1 - most.flow_mm3_s / limit.flow
    verdict, reason = _reason(case, over, limit) if over else ("passed", _below(room))
    amounts = (*amount("before", _before(case), UNIT), *amount("after", most.flow_mm3_s, UNIT), *_limit(limit))
    more = _over(case, over, limit) if over else (*_room(room), *amount("speed", most.speed_mm_s, "mm/s"))
    return Finding(
        limit.check,
        verdict,
        reason=reason,
        also=() if over else tuple(f"no-speed-{feature}" for feature in unseen(case.now)),
        names=limit.material,
        amounts=(*amounts, *more),
        source=f"{SOURCE}; limit: {limit.source}",
        ask=ask(limit.fact) if limit.up_to > limit.flow else "",
        settings=tuple(bead.setting for bead in over or [most]),
    )


def _judge_measured(flow: float, limit: FlowLimit) -> Finding:
    """The most of any line of the motion file, in place of all that the settings would allow."""
    over, room = flow > limit.flow * _EDGE, 1 - flow / limit.flow
    return Finding(
        limit.check,
        "caution" if over else "passed",
        reason="line-above-limit" if over else "line-below-limit",
        names=limit.material,
        amounts=(*amount("after", flow, UNIT), *amount("limit", limit.flow, UNIT), *(() if over else _room(room))),
        source=f"the motion file; limit: {limit.source}",
        settings=("filament.maximum_flow",),
    )


def _below(room: float) -> str:
    return "flow-below-limit" if room >= AT_LIMIT else "flow-at-limit"


def _room(share: float) -> tuple[Amount, ...]:
    """What is left below the limit; next to nothing is none."""
    return amount("headroom", share * 100 if share >= AT_LIMIT else None, "%")


def _before(case: Case) -> float | None:
    """The most that any feature needed: it may have been another one than now."""
    olds = [] if case.derived is None else [bead.flow_mm3_s for bead in case.laid.of(case.base)]
    return max(olds, default=None)


def _held_by_text(case: Case, limit: FlowLimit) -> float | None:
    """The text's own flow limit, where it is as low as what is given."""
    own = case.size("filament.maximum_flow")
    return own if own is not None and own <= limit.flow * _EDGE else None


def _reason(case: Case, over: list[Bead], limit: FlowLimit) -> tuple[Verdict, str]:
    if _held_by_text(case, limit) is not None:
        return "note", "flow-held-by-text"
    if all(bead.flow_mm3_s <= limit.up_to * _EDGE for bead in over):
        return "note", "flow-above-lower-limit"
    return "caution", "flow-above-limit"


def _over(case: Case, over: list[Bead], limit: FlowLimit) -> tuple[Amount, ...]:
    """What each feature above the limit needs, the most first, and how slow they would have to be."""
    slowed = [bead.speed_at(limit.flow) for bead in over]
    wanting = sorted(over, key=lambda bead: -bead.flow_mm3_s)
    return (
        *(part for bead in wanting for part in amount(f"needs-{bead.code}", bead.flow_mm3_s, UNIT)),
        Amount("slowed", min(slowed), max(slowed), "mm/s"),
        *amount("text-limit", _held_by_text(case, limit), UNIT),
    )


LABEL_SPEED, LABEL_SPEED_FACT = "label-speed", "spool.maximum_printing_speed"
LABEL_SOURCE = "the spool's label, as stated in the facts file"


def check_label_speed(case: Case) -> tuple[Finding, ...]:
    """Nothing where nobody told what the label says, or where the text tells no speed: few labels name one."""
    most, speeds = case.quantity(LABEL_SPEED_FACT), _speeds(case)
    if most is None or not speeds:
        return ()
    over = {feature: speed for feature, speed in speeds.items() if speed > most * _EDGE}
    fastest = max(speeds, key=lambda feature: speeds[feature])
    olds = [old for feature in speeds if (old := case.before(f"{feature}.speed")) is not None]
    within = most - speeds[fastest] if speeds[fastest] * _EDGE < most else None
    return (
        Finding(
            LABEL_SPEED,
            "caution" if over else "passed",
            reason="above-label-speed" if over else "within-label-speed",
            also=() if over else tuple(f"no-speed-{feature}" for feature in unseen(case.now)),
            amounts=(
                *amount("before", max(olds, default=None), "mm/s"),
                *amount("after", speeds[fastest], "mm/s"),
                *amount("most", most, "mm/s"),
                *amount("headroom", within, "mm/s"),
            ),
            names=tuple(name for feature, name in FEATURES if feature in over),
            source=LABEL_SOURCE,
            settings=tuple(f"{feature}.speed" for feature in over or (fastest,)),
        ),
    )


def _speeds(case: Case) -> dict[str, float]:
    """The speeds of what is laid [mm/s], by feature."""
    sizes = ((feature, case.size(f"{feature}.speed")) for feature, _ in FEATURES if is_laid(case.now, feature))
    return {feature: speed for feature, speed in sizes if speed is not None}
