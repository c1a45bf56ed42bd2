"""Words that move: G0 to G3, dwells, and axis words alone. Each straight piece becomes a row.

Source: NISTIR 6556, sections 3.5.1 to 3.5.4 (partial transcription and memory). G4 S and P as milliseconds, G5 and G12:
common practice, no source.
"""

import math
from collections.abc import Callable, Mapping

from profilesmith.motion.arcs import CannotArc, chords
from profilesmith.motion.block import Block
from profilesmith.motion.state import AXES, State

Action = Callable[[State, Block, str], None]
# Letters that a move may have; S and T belong to other words of the line.
_KNOWN = frozenset("XYZEFNIJKRPST")


def repeat(state: State, block: Block) -> None:
    """Axis words alone repeat the motion mode; after G80 that is a fault."""
    if state.motion is None:
        state.doubt("no-motion-mode", "X Y Z", "path", "height", "strand", "time", "travel")
        return
    MOTIONS[state.motion](state, block, state.motion)


def _line(state: State, block: Block, code: str) -> None:
    state.motion = code
    if code == "G0":
        state.rapid_seen = True
        state.rapid_told = state.rapid_told or block.values.get("F") is not None
    jump = _go(state, block)
    strand = _strand(state, block)
    if jump is None and block.values.get("E") is None:
        return
    _row(state, block, strand, jump or False)


def _go(state: State, block: Block) -> bool | None:
    """Move the state. None: no axis word; True: from a spot that was not known."""
    moved, jump = False, state.jump
    state.jump = False
    for axis, letter in enumerate(AXES):
        value = block.values.get(letter)
        if value is None:
            continue
        moved = True
        spot = state.at[axis]
        if state.absolute is None:
            state.absolute = True
            state.doubt("distance-not-told", letter)
        if state.absolute:
            state.at[axis] = value * state.scale
        elif spot is not None:
            state.at[axis] = spot + value * state.scale
        jump = jump or spot is None
    return jump if moved else (True if jump else None)


def _strand(state: State, block: Block) -> float:
    """Filament that this line feeds, mm."""
    value = block.values.get("E")
    if value is None:
        return 0.0
    if state.strand_absolute is None:
        _decide_strand_mode(state)
    if state.pending_reset is not None:
        code, line = state.pending_reset
        state.doubts.add("strand-mode-reset", code, line, ("strand", "pull", "speed", "kind"))
        state.pending_reset = None
    number = value * state.scale
    if not state.strand_absolute:
        return number * state.strand_scale()
    fed = number - state.strand
    state.strand = number
    return fed * state.strand_scale()


def _decide_strand_mode(state: State) -> None:
    """Without M82 or M83, E goes along with G90 and G91 [common practice, no source]."""
    if state.absolute is None:
        state.doubt("distance-not-told", "E")
        state.absolute = True
    state.strand_absolute = state.absolute


def _row(state: State, block: Block, strand: float, jump: bool) -> None:
    x, y, z = state.true_spot()
    rows = state.rows
    if jump:
        rows.jumps.append(len(rows))
    speed = state.speed_mm_s()
    if state.inverse_time and block.values.get("F") is not None:
        speed = _inverse_speed(state, block, (x, y, z), strand)
    rows.add(state.line, (x, y, z + state.own_lift), strand, speed)


def _inverse_speed(state: State, block: Block, end: tuple[float, float, float], strand: float) -> float:
    """F is 1/minutes: the whole move takes 1/F."""
    rows = state.rows
    start = (rows.x[-1], rows.y[-1], rows.z[-1]) if len(rows) else rows.first
    length = math.dist(start, end) or abs(strand)
    return max(length * (block.values["F"] or 0.0) / 60.0 * state.speed_factor, 1e-9)


def _arc(state: State, block: Block, code: str) -> None:
    state.motion = code
    _other_axes(state, block)
    if (block.values.get("P") or 1.0) != 1.0:  # several turns, on some machines
        state.doubt("not-modelled", f"{code} P", "path", "height", "strand", "time", "speed")
    if not state.known or state.absolute is None:
        state.doubt("arc-from-unknown", code)
        _line(state, block, code)
        return
    start = [spot or 0.0 for spot in state.at]
    _go(state, block)
    end = [spot or 0.0 for spot in state.at]
    path = chords(start, end, block.values, state.plane, code == "G2", state.scale, state.arc_absolute)
    if isinstance(path, CannotArc):
        state.doubt(path.code, code, "path", "height", "strand", "time", "travel", "speed")
        path = [(end[0], end[1], end[2])]
    if state.inverse_time:
        state.doubt("not-modelled", "G93 G2", "speed", "time", "travel")
    strand = _strand(state, block) / len(path)
    speed = state.speed_mm_s()
    sx, sy, sz = state.shift
    for x, y, z in path:
        state.rows.add(state.line, (x + sx, y + sy, z + sz + state.own_lift), strand, speed)


def _no_motion(state: State, block: Block, code: str) -> None:
    state.motion = None


def _cycle(state: State, block: Block, code: str) -> None:
    """A drilling cycle, or a probe: what it does is not followed."""
    state.doubt("not-modelled", code)


def _probe(state: State, block: Block, code: str) -> None:
    state.at = [None, None, None]
    state.rows.note("wait", code, state.line)


def _machine_frame(state: State, block: Block, code: str) -> None:
    """G53: this line in the machine's coordinates; where that is in ours is not known, so the position is lost."""
    state.machine_frame = True


def _dwell(state: State, block: Block, code: str) -> None:
    """P is seconds [NISTIR] or milliseconds [practice]: a fact of the machine. S is seconds [practice]."""
    seconds, units = block.values.get("S"), block.values.get("P")
    if seconds is not None:
        state.rows.note("dwell", seconds, state.line)
    elif units is not None:
        unit = state.practice.dwell_p
        state.rows.note("dwell" if unit else "dwell-p", units * (unit or 1.0), state.line)
    else:
        state.rows.note("stop", 0.0, state.line)


def _other_axes(state: State, block: Block) -> None:
    """A, B, C, U, V, W and others: a second extruder, a turning plate. What they move is not followed."""
    others = block.values.keys() - _KNOWN
    if others:
        state.doubt("other-axis", " ".join(sorted(others)), "path", "strand", "pull", "speed", "time", "kind")


def _machine_line(state: State, block: Block) -> None:
    for axis, letter in enumerate(AXES):
        if block.values.get(letter) is not None:
            state.at[axis] = None
    state.machine_frame = False


def _straight(state: State, block: Block, code: str) -> None:
    _other_axes(state, block)
    if state.machine_frame:
        state.motion = code
        _machine_line(state, block)
    else:
        _line(state, block, code)


WAITS: Mapping[str, Action] = {"G4": _dwell, "G53": _machine_frame}
MOTIONS: Mapping[str, Action] = {
    "G0": _straight,
    "G1": _straight,
    "G2": _arc,
    "G3": _arc,
    "G38.2": _probe,
    "G80": _no_motion,
    **dict.fromkeys((f"G{number}" for number in range(81, 90)), _cycle),
}
