"""Words of desktop machines: heat, fan, limits, tools, and what changes no figure. All of it common practice, no
source.
"""

from collections.abc import Callable, Mapping

from profilesmith.motion.block import Block
from profilesmith.motion.modes import person
from profilesmith.motion.state import State
from profilesmith.physics.bead import filament_area_mm2

Action = Callable[[State, Block, str], None]
_HEATS = {"M104": "nozzle", "M109": "nozzle", "M140": "bed", "M190": "bed", "M141": "chamber", "M191": "chamber"}
_WAITING = ("M109", "M190", "M191")


def _heat(state: State, block: Block, code: str) -> None:
    what = _HEATS[code]
    tool = block.values.get("T")
    if what == "nozzle" and tool is not None and int(tool) != state.tool:
        state.doubt("other-tool", f"{code} T{tool:g}", "heat")
        return
    target = block.values.get("R") if block.values.get("S") is None else block.values["S"]
    if target is None:
        if code in _WAITING:
            state.rows.note("heating", what, state.line)
        else:
            state.doubt("no-target", code, "heat")
        return
    state.rows.note(what, target, state.line)
    if code in _WAITING:
        state.rows.note("heating", what, state.line)


def _fan(state: State, block: Block, code: str) -> None:
    which = block.values.get("P")
    if which is not None and which != 0:
        state.doubt("other-fan", f"{code} P{which:g}", "fan")
        return
    power = 0.0 if code == "M107" else block.values.get("S")
    if power is None:
        power = 255.0
    if 0.0 < power <= 1.0:
        state.doubt("fan-scale", f"{code} S{power:g}", "fan")
    state.rows.note("fan", min(power, 255.0) / 255.0 * 100.0, state.line)


def _volume(state: State, block: Block, code: str) -> None:
    """M200 D: E counts volume of filament of this diameter; D0 or S0: length again."""
    diameter, switch = block.values.get("D"), block.values.get("S")
    if diameter is None and switch is None:
        state.doubt("not-modelled", code, "strand", "pull", "speed")
        return
    if not diameter or switch == 0:
        state.strand_area = None
        if diameter is None and switch:
            state.doubt("not-modelled", f"{code} S{switch:g}", "strand", "pull", "speed")
        return
    if state.scale != 1.0:
        state.doubt("not-modelled", f"{code} G20", "strand", "pull", "speed")
    state.strand_area = filament_area_mm2(diameter * state.scale)
    state.rows.note("diameter", diameter * state.scale, state.line)
    state.doubt("volume-pulls", code, "pull")


def _speed_factor(state: State, block: Block, code: str) -> None:
    share = block.values.get("S")
    if share is None or share <= 0:
        state.doubt("not-modelled", code, "speed", "travel", "time")
    else:
        state.speed_factor = share / 100.0
        state.rows.note("speed-factor", share, state.line)


def _strand_factor(state: State, block: Block, code: str) -> None:
    """M221: whether it counts for pulls differs between machines."""
    share = block.values.get("S")
    if share is None or share <= 0 or "T" in block.values:
        state.doubt("not-modelled", code, "strand", "pull", "speed")
        return
    state.strand_factor = share / 100.0
    state.rows.note("strand-factor", share, state.line)
    if share != 100.0:
        state.doubt("factor-on-pulls", f"{code} S{share:g}", "pull")


def _accelerations(state: State, block: Block, code: str) -> None:
    both = block.values.get("S")
    for letter, kind in (("P", "print-acceleration"), ("T", "travel-acceleration")):
        value = both if both is not None else block.values.get(letter)
        if value is not None and value > 0:
            state.rows.note(kind, value * state.scale, state.line)


def _corners(state: State, block: Block, code: str) -> None:
    """M205 X Y: the change of speed that is made at once."""
    sudden = [value for letter in "XY" if (value := block.values.get(letter)) is not None]
    if sudden:
        state.rows.note("sudden", min(sudden) * state.scale, state.line)


def select_tool(state: State, block: Block, code: str) -> None:
    """T alone. Each tool has its own E and its own heat; at once or with M6 differs."""
    number = block.values.get("T")
    tool = 0 if number is None else int(number)
    if tool != state.tool:
        state.doubt("other-tool", f"T{tool}", "heat", "strand", "pull", "fan")


def _tool_change(state: State, block: Block, code: str) -> None:
    select_tool(state, block, code)
    state.rows.note("person", code, state.line)


def _motors_off(state: State, block: Block, code: str) -> None:
    """The axes may be moved by hand from now on."""
    state.rows.note("motors-off", code, state.line)


def _limits(state: State, block: Block, code: str) -> None:
    """M201, M203 X Y: the machine speeds up no harder, and goes no faster, whatever M204 and F say."""
    limits = [value for letter in "XY" if (value := block.values.get(letter)) is not None and value > 0]
    if limits:
        kind = "acceleration-limit" if code == "M201" else "speed-limit"
        state.rows.note(kind, min(limits) * state.scale, state.line)


def _nothing(state: State, block: Block, code: str) -> None:
    """Reports, messages, lights, limits above the ordered speeds: no figure changes."""


def _wait_done(state: State, block: Block, code: str) -> None:
    state.rows.note("stop", 0.0, state.line)


HEAT: Mapping[str, Action] = {**dict.fromkeys(_HEATS, _heat), "M106": _fan, "M107": _fan}
LIMITS: Mapping[str, Action] = {
    "M200": _volume,
    "M204": _accelerations,
    "M205": _corners,
    "M220": _speed_factor,
    "M221": _strand_factor,
    "M6": _tool_change,
    "M600": person,
}
# Spindle and coolant have no meaning for a nozzle; the rest are messages, reports, lights, stored settings' own report.
_HARMLESS = (
    *(3, 4, 5, 7, 8, 9, 17, 20, 21, 22, 27, 31, 36, 73, 75, 76, 77, 78, 105, 110, 111, 113, 114, 115),
    *(16, 117, 118, 119, 150, 155, 291, 300, 302, 355, 420, 486, 900, 919, 928),
)
HARMLESS: Mapping[str, Action] = {
    **dict.fromkeys((f"M{number}" for number in _HARMLESS), _nothing),
    "M201": _limits,
    "M203": _limits,
    "M18": _motors_off,
    "M84": _motors_off,
    "M400": _wait_done,
}
TAKES_AXES = frozenset({"M17", "M18", "M84", "M92", "M201", "M203", "M204", "M205", "M206", "M207", "M208", "M220"})
