"""Coordinate systems and offsets: G54 to G59.3, G10 L2, G92 and its kin, G28, G30, G53.

Source: NISTIR 6556, sections 3.5.10 to 3.5.18 (partial transcription and memory). Homing by G28 and bare G92: common
practice, no source.
"""

from collections.abc import Callable, Mapping

from profilesmith.motion.block import Block
from profilesmith.motion.state import AXES, State

Action = Callable[[State, Block, str], None]
_SYSTEMS = ("G54", "G55", "G56", "G57", "G58", "G59", "G59.1", "G59.2", "G59.3")


def reframe(state: State, system: list[float], offset: list[float]) -> None:
    """Other origins: the nozzle stays where it is and gets other numbers."""
    for axis in range(3):
        shift = system[axis] + offset[axis]
        spot = state.at[axis]
        if spot is not None:
            state.at[axis] = spot + state.shift[axis] - shift
        state.shift[axis] = shift
    state.offset = offset


def _system(state: State, block: Block, code: str) -> None:
    if code == state.system:
        return
    if code not in state.systems:
        state.doubt("unknown-origin", code, "path", "height", "time", "travel")
        state.systems[code] = [0.0, 0.0, 0.0]
    state.system = code
    reframe(state, state.systems[code], state.offset)


def set_system(state: State, block: Block) -> None:
    """G10 L2 P2 X Y Z: the origin of G55 in the machine's own coordinates."""
    number = block.values.get("P")
    if number is None or not 1 <= number <= len(_SYSTEMS) or number != int(number):
        state.doubt("not-modelled", "G10 L2", "path", "height", "time", "travel")
        return
    name = _SYSTEMS[int(number) - 1]
    origin = list(state.systems.get(name, [0.0, 0.0, 0.0]))
    for axis, letter in enumerate(AXES):
        value = block.values.get(letter)
        if value is not None:
            origin[axis] = value * state.scale
    state.systems[name] = origin
    if name == state.system:
        reframe(state, origin, state.offset)


def _set_numbers(state: State, block: Block, code: str) -> None:
    """G92: the current point gets these numbers. Without words it differs between machines what it does."""
    letters = [letter for letter in (*AXES, "E") if letter in block.values]
    if not letters:
        state.doubt("bare-offset", code, "path", "height", "strand", "time", "travel")
        return
    if block.values.get("E") is not None:
        state.strand = (block.values["E"] or 0.0) * state.scale
    offset = list(state.offset)
    for axis, letter in enumerate(AXES):
        value = block.values.get(letter)
        if value is not None:
            _set_one(state, axis, value * state.scale, offset)
    state.offset = offset


def _set_one(state: State, axis: int, number: float, offset: list[float]) -> None:
    spot = state.at[axis]
    if spot is None:  # where it is was not known: from now on it is
        state.at[axis] = number
        state.rows.note("origin", AXES[axis], state.line)
        state.jump = True
        return
    offset[axis] += spot - number
    state.shift[axis] += spot - number
    state.at[axis] = number
    if axis == 2:
        state.rows.note("origin", "Z", state.line)


def _drop_offsets(state: State, block: Block, code: str) -> None:
    """G92.1 takes the offsets back for good, G92.2 sets them aside."""
    if code == "G92.2":
        state.kept_offset = list(state.offset)
    else:
        state.kept_offset = [0.0, 0.0, 0.0]
    reframe(state, state.systems[state.system], [0.0, 0.0, 0.0])


def _restore_offsets(state: State, block: Block, code: str) -> None:
    reframe(state, state.systems[state.system], list(state.kept_offset))


def _home(state: State, block: Block, code: str) -> None:
    """By way of a given point to a stored one [NISTIR], or homing of the named axes [practice]: position unknown
    after.
    """
    letters = [letter for letter in AXES if letter in block.values]
    for axis in range(3):
        if not letters or AXES[axis] in letters:
            state.at[axis] = None
    state.rows.note("home", " ".join(letters), state.line)


def _probe(state: State, block: Block, code: str) -> None:
    for axis in range(3):
        state.at[axis] = None
    state.rows.note("wait", code, state.line)


SYSTEMS: Mapping[str, Action] = dict.fromkeys(_SYSTEMS, _system)
SETTERS: Mapping[str, Action] = {
    "G28": _home,
    "G30": _home,
    "G29": _probe,
    "G92": _set_numbers,
    "G92.1": _drop_offsets,
    "G92.2": _drop_offsets,
    "G92.3": _restore_offsets,
}
