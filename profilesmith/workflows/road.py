"""The road of mends that a ledger beside a derived file keeps."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from profilesmith.evidence.of_road import NowPrinted
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused
from profilesmith.ledger.read import Stored
from profilesmith.mend.road import RoadStep, road_of
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.mend_said import read_last, read_seen
from profilesmith.workflows.troubles import known_troubles


def road_in(stored: Stored, derived: str) -> tuple[RoadStep, ...]:
    """The road of a ledger. Raises Refused for one that is damaged."""
    try:
        return road_of(stored.file.mends, load_vocabulary())
    except (ValueError, KeyError) as error:
        hint = "Derive again, or put the ledger back as it was."
        raise Refused(
            [Problem("bad-ledger", "The ledger's road of mends is damaged.", Place(derived), hint)]
        ) from error


def now_printed(steps: Sequence[RoadStep], seen: Sequence[str], last: str, library: Path | None) -> NowPrinted:
    """What is typed of the print at the end of a road: ``stringing=good`` and what came of the newest mend. Raises Refused."""
    verdict = read_last(last)
    if verdict and not any(step.changes for step in steps):
        hint = "Leave --last out, or name the mended file with --derived."
        raise Refused([Problem("no-mend", "There is no mend that --last could be about.", Place("--last"), hint)])
    return NowPrinted(read_seen(seen, known_troubles(library)) if seen else {}, verdict)
