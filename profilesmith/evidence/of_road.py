"""The road of mends in a ledger as records keep it: each pair of prints, with what was changed between them and
what came of it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import zip_longest

from profilesmith.evidence.tried_mend import MOST_MENDS, TriedMend
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger.history import Grade, Verdict
from profilesmith.mend.road import RoadStep
from profilesmith.vocabulary.setting import Vocabulary

WORTH: Mapping[Grade, int] = {"good": 0, "fair": 1, "poor": 2}


class NowPrinted(NamedTuple):
    """What is said of the present print. seen: trouble -> grade; last: what came of the newest mend."""

    seen: Mapping[str, Grade] = {}
    last: Verdict = ""


def tried_mends(steps: Sequence[RoadStep], now: NowPrinted, vocabulary: Vocabulary) -> tuple[TriedMend, ...]:
    """What was tried on the way to the present print, the oldest first; of a long road the newest MOST_MENDS."""
    return tuple(_mends(steps, now, vocabulary))[-MOST_MENDS:]


def _mends(steps: Sequence[RoadStep], now: NowPrinted, vocabulary: Vocabulary) -> Iterator[TriedMend]:
    if steps and steps[0].did:  # done before the first print that was mended: nothing is known of the print before it
        yield TriedMend("", {}, _bad(steps[0].seen), {}, steps[0].did, steps[0].last)
    for step, after in zip_longest(steps, steps[1:]):
        if step.undo:
            continue
        shown, said, did = (now.seen, now.last, ()) if after is None else (after.seen, after.last, after.did)
        if step.changes or did:
            yield TriedMend(
                step.date,
                step.seen,
                tuple(dict.fromkeys(item.trouble for item in step.changes if item.trouble)) or _bad(step.seen),
                {
                    item.setting: (
                        vocabulary.settings[item.setting].written(item.before),
                        vocabulary.settings[item.setting].written(item.after),
                    )
                    for item in step.changes
                },
                did,
                said or compared(step.seen, shown),
            )


def _bad(seen: Mapping[str, Grade]) -> tuple[str, ...]:
    return tuple(name for name, grade in seen.items() if grade != "good")


def compared(before: Mapping[str, Grade], after: Mapping[str, Grade]) -> Verdict:
    """Better, same or worse, over what was looked at both times; "" where nothing was."""
    both = before.keys() & after.keys()
    if not both:
        return ""
    moved = sum(WORTH[after[name]] - WORTH[before[name]] for name in both)
    return "better" if moved < 0 else "worse" if moved > 0 else "same"
