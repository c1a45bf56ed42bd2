"""Pulls by words of the machine's own: G10, G11, with the lengths of M207 and M208. Common practice, no source."""

from collections.abc import Callable, Mapping

from profilesmith.motion.block import Block
from profilesmith.motion.coordinates import set_system
from profilesmith.motion.state import State

Action = Callable[[State, Block, str], None]


def _pull_or_origin(state: State, block: Block, code: str) -> None:
    if block.values.get("L") is not None:
        if block.values["L"] in (2, 20):
            set_system(state, block)
        else:
            state.doubt("not-modelled", "G10 L", "path", "height", "time", "travel")
        return
    if block.values.keys() - {"N", "S"}:  # on some machines it sets a tool's heat or place
        state.doubt("not-modelled", code, "path", "height", "heat", "pull", "time", "travel")
        return
    state.rows.note("pull-word", code, state.line)
    if state.pulled:
        return
    state.pulled = True
    if state.pull is None:
        state.doubt("pull-length", code, "pull")
        state.rows.note("stop", 0.0, state.line)
        return
    length, speed, lift = state.pull
    _feed(state, -length, speed)
    _lift(state, lift)


def _unpull(state: State, block: Block, code: str) -> None:
    if not state.pulled:
        return
    state.pulled = False
    if state.pull is None:
        state.rows.note("stop", 0.0, state.line)
        return
    length, speed, lift = state.pull
    more, own = state.unpull or (0.0, speed)
    _lift(state, -lift)
    _feed(state, length + more, own)


def _feed(state: State, length: float, speed: float) -> None:
    state.rows.add(state.line, state.true_spot(), length, speed)


def _lift(state: State, lift: float) -> None:
    """The lift is the machine's own: the file's coordinates know nothing of it."""
    if lift and state.at[2] is not None:
        x, y, z = state.true_spot()
        state.own_lift += lift
        state.rows.add(state.line, (x, y, z + state.own_lift), 0.0, state.speed_mm_s())


def _lengths(state: State, block: Block, code: str) -> None:
    length, feed, lift = (block.values.get(letter) for letter in "SFZ")
    old = state.pull
    speed = feed * state.scale / 60.0 if feed else old[1] if old else None
    if length is None or speed is None:
        state.doubt("pull-length", code, "pull")
        return
    state.pull = (length * state.scale, speed, (lift or 0.0) * state.scale)


def _more(state: State, block: Block, code: str) -> None:
    length, feed = block.values.get("S"), block.values.get("F")
    speed = feed * state.scale / 60.0 if feed else state.pull[1] if state.pull else 0.0
    if not speed:
        state.doubt("pull-length", code, "pull")
        return
    state.unpull = ((length or 0.0) * state.scale, speed)


PULLS: Mapping[str, Action] = {"M207": _lengths, "M208": _more, "G10": _pull_or_origin, "G11": _unpull}
