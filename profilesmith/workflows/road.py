"""What is typed of the print at the end of a road of mends."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from profilesmith.evidence.of_road import NowPrinted
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused
from profilesmith.mend.road import RoadStep
from profilesmith.workflows.mend_said import read_last, read_seen
from profilesmith.workflows.troubles import known_troubles


def now_printed(steps: Sequence[RoadStep], seen: Sequence[str], last: str, library: Path | None) -> NowPrinted:
    """What is typed of the print at the end of a road: ``stringing=good`` and what came of the newest mend.
    Raises Refused.
    """
    verdict = read_last(last)
    if verdict and not any(step.changes for step in steps):
        hint = "Leave --last out, or name the mended file with --derived."
        raise Refused([Problem("no-mend", "There is no mend that --last could be about.", Place("--last"), hint)])
    return NowPrinted(read_seen(seen, known_troubles(library)) if seen else {}, verdict)
