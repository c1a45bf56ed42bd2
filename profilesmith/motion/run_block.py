"""A block is carried out on the modal state, in the order that the report gives, whatever the order on the line.

Source of the order and the modal groups: NISTIR 6556, sections 3.4 and 3.8 (from a partial transcription and memory).
"""

from collections.abc import Callable, Mapping

from profilesmith.motion import coordinates, machine_words, modes, moves, pulls
from profilesmith.motion.block import Block
from profilesmith.motion.doubt import Subject
from profilesmith.motion.state import State

Action = Callable[[State, Block, str], None]

# In the order of execution. A code that is not here is not known.
ACTIONS: Mapping[str, Action] = {
    **modes.FEED_MODES,
    **machine_words.HEAT,
    **machine_words.LIMITS,
    **machine_words.HARMLESS,
    **modes.MODES,
    **coordinates.SYSTEMS,
    **modes.DISTANCE,
    **moves.WAITS,
    **coordinates.SETTERS,
    **pulls.PULLS,
    **moves.MOTIONS,
    **modes.STOPS,
}
_RANK = {code: rank for rank, code in enumerate(ACTIONS)}
_MODAL_GROUPS = (
    frozenset({"G0", "G1", "G2", "G3", "G38.2", "G80", *(f"G{n}" for n in range(81, 90))}),
    frozenset({"G17", "G18", "G19"}),
    frozenset({"G90", "G91"}),
    frozenset({"G93", "G94"}),
    frozenset({"G20", "G21"}),
)
# Words that use the axis letters themselves: a motion may not stand beside them.
_AXIS_USERS = frozenset({"G10", "G28", "G30", "G92"})
_AXIS_LETTERS = "XYZ"
# Faults after which the line's words are not trusted at all; the others let the rest of the line be read.
_WHOLE_LINE = frozenset({"expression", "unread", "nested-remark", "open-remark", "checksum", "no-number", "star"})


def run_block(state: State, block: Block) -> None:
    """Carry out one line. Doubts and rows are left in the state."""
    state.line = block.line
    for remark in block.remarks:
        _remark(state, remark)
    if block.percent:
        _percent(state)
        return
    if state.ended or not (block.codes or block.values or block.faults):
        if state.ended and (block.codes or block.values):
            state.seen["after-end"] = state.seen.get("after-end", 0) + 1
        return
    if block.skipped and not _runs_slashed(state, block):
        return
    if _broken(state, block):
        return
    _carry_out(state, block)


def _remark(state: State, remark: str) -> None:
    kind = state.practice.lines.get(remark)
    if kind is not None:
        state.kind = kind
        state.rows.note("kind", kind, state.line)


def _percent(state: State) -> None:
    if state.seen.get("%") or len(state.seen) > 0:
        state.ended = state.ended or state.line
    state.seen["%"] = state.seen.get("%", 0) + 1


def _runs_slashed(state: State, block: Block) -> bool:
    if state.practice.run_slashed is None:
        state.doubt("block-delete", "/")
        return True
    return state.practice.run_slashed


def _broken(state: State, block: Block) -> bool:
    """Faults become doubts. True where nothing of the line may be carried out."""
    if any(fault.code == "unread" and _allowed(state, fault.text) for fault in block.faults):
        return True
    for fault in block.faults:
        if fault.code == "exponent":
            state.doubt("exponent", fault.text, *_subjects_of(fault.text[:1].upper()))
        elif fault.code in ("blank-in-number", "twice"):
            state.doubt(fault.code, fault.text, *_subjects_of(fault.text[:1].upper()))
        else:
            state.doubt(fault.code, fault.text)
    return any(fault.code in _WHOLE_LINE for fault in block.faults)


def _allowed(state: State, text: str) -> bool:
    """A line in a machine's own words that the words map knows."""
    word = text.split()[0] if text.split() else ""
    subjects = state.practice.words.get(word)
    if subjects:
        state.doubt("told-word", word, *subjects)
    return subjects is not None


def _subjects_of(letter: str) -> tuple[Subject, ...]:
    if letter == "E":
        return ("strand", "pull", "speed", "kind")
    return ("speed", "travel", "time") if letter == "F" else ()


def _carry_out(state: State, block: Block) -> None:
    if "O" in block.values:
        state.doubt("expression", "O")
        return
    codes = list(block.codes)
    for group in _MODAL_GROUPS:
        if sum(code in group for code in codes) > 1:
            state.doubt("one-group-twice", " ".join(codes))
            return
    has_axis = any(letter in block.values for letter in _AXIS_LETTERS)
    motions = [code for code in codes if code in moves.MOTIONS]
    if motions and has_axis and any(code in _AXIS_USERS for code in codes):
        state.doubt("two-axis-words", " ".join(codes))
        return
    if block.values.get("F") is not None and not _own_feed(codes):
        modes.set_feed(state, block)
    if "T" in block.values and not any(code.startswith("M") for code in codes):
        machine_words.select_tool(state, block, "T")
    _each(state, block, codes)
    if not motions and (has_axis or block.values.get("E") is not None) and not _takes_axes(codes):
        moves.repeat(state, block)


def _each(state: State, block: Block, codes: list[str]) -> None:
    for code in sorted(codes, key=lambda code: _RANK.get(code, -1)):
        state.seen[code] = state.seen.get(code, 0) + 1
        action = ACTIONS.get(code)
        if code in state.practice.words:
            subjects = state.practice.words[code]
            if subjects:
                state.doubt("told-word", code, *subjects)
        elif action is not None:
            action(state, block, code)
        else:
            state.doubt("unknown-word", code)


def _own_feed(codes: list[str]) -> bool:
    """F of these words is not the speed of moves."""
    return any(code in ("M207", "M208", "M203") for code in codes)


def _takes_axes(codes: list[str]) -> bool:
    return any(code in _AXIS_USERS or code in machine_words.TAKES_AXES for code in codes)
