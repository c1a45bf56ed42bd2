"""Modes that stay: units, planes, distances, feed, and the end of the file.

Source: NISTIR 6556, section 3.5 (partial transcription and memory). M82, M83: common practice, no source.
"""

from collections.abc import Callable, Mapping

from profilesmith.motion.block import Block
from profilesmith.motion.state import INCH, State

Action = Callable[[State, Block, str], None]


def set_feed(state: State, block: Block) -> None:
    """F stays until the next one. In inverse time it is 1/minutes and holds for its own line only."""
    feed = block.values["F"]
    assert feed is not None
    if feed <= 0:
        state.doubt("feed-not-positive", f"F{feed:g}", "speed", "travel", "time")
        return
    state.feed = feed if state.inverse_time else feed * state.scale


def _feed_mode(state: State, block: Block, code: str) -> None:
    state.inverse_time = code == "G93"
    state.feed = None  # the number of one mode means nothing in the other


def _units_a_minute(state: State, block: Block, code: str) -> None:
    if state.inverse_time:
        _feed_mode(state, block, code)


def _plane(state: State, block: Block, code: str) -> None:
    state.plane = code


def _units(state: State, block: Block, code: str) -> None:
    scale = INCH if code == "G20" else 1.0
    if scale != state.scale and block.values.get("F") is not None:
        state.doubt("units-and-feed", code, "speed", "travel", "time")
    state.scale = scale


def _distance(state: State, block: Block, code: str) -> None:
    state.absolute = code == "G90"
    by_practice = state.practice.strand_absolute is not None and not (state.seen.get("M82") or state.seen.get("M83"))
    if state.strand_absolute is None or by_practice:
        return
    if state.seen.get("M82") or state.seen.get("M83"):
        _resets_strand(state, code)
    else:
        state.strand_absolute = state.absolute


def _resets_strand(state: State, code: str) -> None:
    """After M82 or M83 it differs between machines whether G90 and G91 set E's mode too."""
    if state.practice.resets_strand is False or state.strand_absolute == state.absolute:
        return
    if state.practice.resets_strand:
        state.strand_absolute = state.absolute
    else:
        state.pending_reset = (code, state.line)


def _strand_mode(state: State, block: Block, code: str) -> None:
    state.strand_absolute = code == "M82"
    state.pending_reset = None


def _arc_mode(state: State, block: Block, code: str) -> None:
    state.arc_absolute = code == "G90.1"


def _nothing(state: State, block: Block, code: str) -> None:
    """A word that changes no figure of a print."""


def _cutter(state: State, block: Block, code: str) -> None:
    state.doubt("not-modelled", code, "path", "height", "strand", "time", "travel")


def _tool_length(state: State, block: Block, code: str) -> None:
    state.doubt("not-modelled", code, "height")


def _end(state: State, block: Block, code: str) -> None:
    state.ended = state.line


def person(state: State, block: Block, code: str) -> None:
    state.rows.note("person", code, state.line)


FEED_MODES: Mapping[str, Action] = {"G93": _feed_mode, "G94": _units_a_minute}
MODES: Mapping[str, Action] = {
    **dict.fromkeys(("G17", "G18", "G19"), _plane),
    "G20": _units,
    "G21": _units,
    "G40": _nothing,
    "G41": _cutter,
    "G42": _cutter,
    "G43": _tool_length,
    "G49": _nothing,
    **dict.fromkeys(("G61", "G61.1", "G64", "G98", "G99", "M48", "M49"), _nothing),
    "M82": _strand_mode,
    "M83": _strand_mode,
    "G90.1": _arc_mode,
    "G91.1": _arc_mode,
}
DISTANCE: Mapping[str, Action] = {"G90": _distance, "G91": _distance}
STOPS: Mapping[str, Action] = {"M2": _end, "M30": _end, "M0": person, "M1": person, "M60": person}
