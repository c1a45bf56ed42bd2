"""Propose a words map for a motion file."""

from __future__ import annotations

from pathlib import Path

from profilesmith.engine.judge_motion import only_text, refuse_other_text
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.motion.lines import LineTooLong
from profilesmith.motion.proposing.propose import propose
from profilesmith.motion.proposing.remarks import read_remarks
from profilesmith.review.motion.proposed_map import proposed_map
from profilesmith.workflows.motion.check import portions
from profilesmith.write_files import outputs_free, write_whole


def suggest(name: str, out: Path | None = None, overwrite: bool = False) -> str:
    """The map's text; written to ``out`` as well where that is given. Raises Refused."""
    if out is not None:
        refuse_if(outputs_free([out], (Path(name),), overwrite))
    try:
        figures, traces = read_remarks(only_text(portions(name), name))
    except LineTooLong as error:
        hint = "Name the file that your slicing software wrote for the printer."
        raise Refused([Problem("no-motion-file", "This is no motion file.", Place(name), hint)]) from error
    refuse_other_text(figures, name)
    proposals = propose(traces, len(figures.layers))
    dwells = figures.times.dwells.low != figures.times.dwells.high
    text = proposed_map(Path(name).stem, proposals, figures.doubts, dwells)
    if out is not None:
        refuse_if(write_whole({out: text.encode()}, overwrite=overwrite))
    return text
