"""The many lines that hold a G0 or G1 and plain X, Y, Z, E, F in the usual order, read many at a time.

This is a short cut: what it cannot read exactly as ``run_block`` would, it hands back.
"""

import re
from collections.abc import Sequence
from operator import sub

from profilesmith.motion.state import State

# Longer ones are looked at one by one.
_NUMBER = r"(-?(?:[0-9]{1,7}(?:\.[0-9]{0,9})?|\.[0-9]{1,9}))"
# G0 or G1; F before or behind the axes; the rest of the line where it is anything else.
LINE = re.compile(
    rf"G([01])(?=[^\n]* [XYZE])(?: F{_NUMBER})?(?: X{_NUMBER})?(?: Y{_NUMBER})?(?: "
    rf"Z{_NUMBER})?(?: E{_NUMBER})?(?(2)|(?: F{_NUMBER})?)\n"
    r"|([^\n]*)\n",
    re.ASCII,
)
Found = tuple[str, str, str, str, str, str, str, str]


def ready(state: State) -> bool:
    """The modes are the usual ones, so that simple lines mean what they seem to."""
    return (
        state.absolute is True
        and state.scale == 1.0
        and state.feed is not None
        and not state.inverse_time
        and not state.ended
        and not state.jump
        and not state.machine_frame
        and state.strand_absolute is not None
        and state.pending_reset is None
        and None not in state.at
    )


def take(state: State, found: Sequence[Found], first_line: int) -> bool:
    """Add a stretch of simple lines to the rows. False: it holds something that has to be read word by word."""
    motions, feeds_before, xs, ys, zs, strands, feeds, _ = zip(*found, strict=True)
    x, y, z = state.at
    assert x is not None
    assert y is not None
    assert z is not None  # ``ready`` has seen to it
    try:
        column_x = [x := float(text) if text else x for text in xs]
        column_y = [y := float(text) if text else y for text in ys]
        column_z = [z := float(text) if text else z for text in zs] if any(zs) else [z] * len(zs)
        fed, strand = _fed(state, strands)
        speeds = _speeds(state, feeds_before, feeds)  # last: it changes the state
    except ValueError:
        return False
    if speeds is None:
        return False
    _count_rapids(state, motions, feeds_before, feeds)
    _extend(state, (column_x, column_y, column_z), fed, speeds, range(first_line, first_line + len(found)))
    state.at = [x, y, z]
    state.strand = strand
    state.motion = f"G{motions[-1]}"
    return True


def _speeds(state: State, before: Sequence[str], behind: Sequence[str]) -> list[float] | None:
    """Speeds in mm/s; None where an F is no speed."""
    factor, speed = state.speed_factor, state.speed_mm_s()
    if not (any(before) or any(behind)):
        return [speed] * len(before)
    texts = [one or other for one, other in zip(before, behind, strict=True)]
    feeds = [float(text) for text in texts if text]
    if min(feeds) <= 0:
        return None
    state.feed = feeds[-1]
    rest = iter(feeds)
    return [speed := next(rest) / 60.0 * factor if text else speed for text in texts]


def _fed(state: State, texts: Sequence[str]) -> tuple[list[float], float]:
    """Filament fed by each line, mm, and where E stands at the end."""
    strand = state.strand
    if state.strand_absolute:
        spots = [strand]
        spots += [strand := float(text) if text else strand for text in texts]
        fed = list(map(sub, spots[1:], spots))
    else:
        fed = [float(text) if text else 0.0 for text in texts]
    scale = state.strand_scale()
    return (fed if scale == 1.0 else [amount * scale for amount in fed]), strand


def _count_rapids(state: State, motions: Sequence[str], before: Sequence[str], behind: Sequence[str]) -> None:
    """Whether G0 comes with an F of its own, anywhere: once is enough."""
    if state.rapid_told or "0" not in motions:
        return
    state.rapid_seen = True
    texts = zip(motions, before, behind, strict=True)
    state.rapid_told = any(motion == "0" and (one or other) for motion, one, other in texts)


def _extend(
    state: State,
    columns: tuple[list[float], list[float], list[float]],
    fed: list[float],
    speeds: list[float],
    lines: range,
) -> None:
    rows = state.rows
    for held, column, shift in zip((rows.x, rows.y, rows.z), columns, state.shift, strict=True):
        held.extend([value + shift for value in column] if shift else column)
    if state.own_lift:
        rows.z[-len(lines) :] = [value + state.own_lift for value in rows.z[-len(lines) :]]
    rows.strand.extend(fed)
    rows.speed.extend(speeds)
    rows.line.extend(lines)
