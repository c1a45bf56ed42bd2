"""Traces of remarks -> proposed kinds of line, each with the reason in data."""

from collections.abc import Sequence

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.motion.proposing.remarks import Trace

CLOSED = 0.8  # share of stretches that end where they began, from which lines are loops
FEW_LAYERS = 6


class KindProposal(NamedTuple):
    """is_kind: a kind of ``words_map.KINDS``; reason: a code for wording; sure: whether the shape speaks for it
    alone.
    """

    trace: Trace
    is_kind: str
    reason: str


def propose(traces: Sequence[Trace], layers: int) -> tuple[KindProposal, ...]:
    """One proposal for each trace. layers: how many the file has."""
    loops = [trace for trace in traces if trace.loops >= CLOSED]
    lines = [trace for trace in traces if trace.loops < CLOSED]
    ground = _ground(lines, traces)
    proposals = [*_walls(loops, layers), *(_filling(trace, lines, ground, layers) for trace in lines)]
    order = {trace.remark: at for at, trace in enumerate(traces)}
    return tuple(sorted(proposals, key=lambda proposal: order[proposal.trace.remark]))


def _ground(lines: Sequence[Trace], traces: Sequence[Trace]) -> int:
    """The layer above a raft: something fills the lowest layers alone, and everything that is laid at all above begins
    there.
    """
    for trace in lines:
        last = trace.layers[-1]
        others = [other for other in traces if other is not trace]
        if last < FEW_LAYERS and others and min(other.layers[0] for other in others) > last:
            return last + 1
    return 0


def _walls(loops: Sequence[Trace], layers: int) -> list[KindProposal]:
    tall = [trace for trace in loops if len(trace.layers) > max(1, layers // 4)]
    outer = max(tall, key=lambda trace: trace.mean, default=None)
    proposals = []
    for trace in loops:
        if trace not in tall:
            proposals.append(KindProposal(trace, "skirt" if trace.layers[0] == 0 else "other", "loops-below"))
        elif trace is outer:
            proposals.append(KindProposal(trace, "outer_wall", "longest-loops"))
        else:
            proposals.append(KindProposal(trace, "inner_wall", "shorter-loops"))
    return proposals


def _filling(trace: Trace, lines: Sequence[Trace], ground: int, layers: int) -> KindProposal:
    low, high = trace.layers[0], trace.layers[-1]
    whole = high - low + 1 == len(trace.layers)
    if ground and high < ground:
        return KindProposal(trace, "raft", "lowest-alone")
    if whole and low <= ground and high < max(ground + FEW_LAYERS, layers // 3):
        return KindProposal(trace, "bottom", "fills-below")
    if high == layers - 1:
        return KindProposal(trace, "top", "fills-above")
    widest = max(lines, key=lambda other: other.length)
    if trace is widest or low > ground:
        return KindProposal(trace, "infill", "fills-between")
    return KindProposal(trace, "support", "open-lines")
