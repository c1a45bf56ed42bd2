"""The road of a mended file in words: what was seen, what was changed then, and what came of it."""

from __future__ import annotations

from collections.abc import Sequence

from profilesmith.foundation.words import listed
from profilesmith.ledger.history import Mend
from profilesmith.mend.road import RoadStep, road_of, verdict_of
from profilesmith.review.wording import visible
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

CAME = {"": "", "better": "; it got better", "same": "; no difference", "worse": "; it got worse"}


def road_lines(mends: Sequence[Mend]) -> tuple[str, ...]:
    """A line for each mend of a ledger; one that says so where the road is damaged."""
    try:
        steps = road_of(mends, load_vocabulary())
    except (ValueError, KeyError):
        return ("The road in the ledger is damaged and cannot be shown.",)
    return tuple(visible(_step(steps, number)) for number in range(len(steps)))


def _nothing(step: RoadStep) -> str:
    return "nothing bad seen" if step.seen else "not said what it showed"


def _step(steps: Sequence[RoadStep], number: int) -> str:
    step, settings = steps[number], load_vocabulary().settings
    bad = [f"{name} {grade}" for name, grade in step.seen.items() if grade != "good"]
    changes = [
        f"{item.setting} {settings[item.setting].show(item.before)} → {settings[item.setting].show(item.after)}"
        for item in step.changes
    ]
    head = "taken back" if step.undo else listed(bad) or _nothing(step)
    did = f"; {listed(step.did)} first" if step.did else ""
    return f"{head}{did}: {'; '.join(changes) or 'nothing was changed'}{CAME[verdict_of(steps, number)]}"
