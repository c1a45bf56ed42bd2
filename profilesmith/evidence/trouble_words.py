"""Sums of troubles and mends in words and as data, for lists and pages alike. Whoever prints them makes
strangers' text visible.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from profilesmith.evidence.interval import ShareInterval
from profilesmith.evidence.record import Record
from profilesmith.evidence.tally import CONFIDENCE, FEW, percent_range
from profilesmith.evidence.tried_mend import TriedMend
from profilesmith.evidence.trouble_tally import HelpTally, SeenTally, TriedTogether, troubles_seen, what_helped
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.words import listed
from profilesmith.vocabulary.setting import Vocabulary

SEEN = "Troubles that were seen"
HELPED = "What was tried after a print, and how often it got better"
SEEN_HEADS = ("Trouble", "Seen in", "How it was", "Share that shows it")
HELPED_HEADS = ("Trouble", "Tried", "Better", "Else", "Share that gets better")
HOW_SEEN = (
    "Of the prints that somebody looked at for a trouble; the range is the share of such "
    f"prints that show it, with {CONFIDENCE} "
    "confidence. A trouble is looked for where it is expected, so the true share is rather smaller."
)
HOW_HELPED = (
    "Each row is one change between two prints, judged by the one who made it; the range is "
    "the share of such changes that make "
    f"it better, with {CONFIDENCE} confidence. Prints differ by chance, too: a few that got better prove little."
)


class ShownSeen(NamedTuple):
    """A row: ``stringing``, ``3 of 4``, ``1 poor, 2 fair, 1 good``, ``19 % to 100 %``."""

    trouble: str
    shown: str
    grades: str
    share: str


class ShownHelp(NamedTuple):
    """A row: ``stringing``, ``retraction.distance up``, ``2 of 3``, ``1 no difference``, ``9 % to 100 %``."""

    trouble: str
    tried: str
    better: str
    others: str
    share: str


def shown_seen(item: SeenTally) -> ShownSeen:
    grades = ", ".join(
        f"{count} {word}" for word, count in zip(("poor", "fair", "good"), item[1:4], strict=True) if count
    )
    return ShownSeen(item.trouble, f"{item.shown} of {item.looked}", grades, _share(item.interval, item.looked))


def never_seen(seen: Sequence[SeenTally]) -> str:
    """One sentence on what was looked for and never there; "" for nothing."""
    names = [f"{item.trouble} ({item.looked})" for item in seen if not item.shown]
    return f"Looked for in so many prints, and never seen: {listed(names)}." if names else ""


def shown_help(item: HelpTally) -> ShownHelp:
    others = ((item.same, "no difference"), (item.worse, "worse"))
    otherwise = ", ".join(f"{count} {word}" for count, word in others if count)
    return ShownHelp(
        item.trouble,
        tried_text(item.tried),
        f"{item.better} of {item.times}",
        otherwise,
        _share(item.interval, item.times),
    )


def _share(interval: ShareInterval, number: int) -> str:
    return f"{percent_range(interval)}{', too few to tell' if number < FEW else ''}"


def tried_text(tried: TriedTogether) -> str:
    """``dry the spool, and retraction.distance up``."""
    return ", and ".join((*tried.did, *(f"{setting} {way}" for setting, way in tried.moves)))


def trouble_lines(records: Sequence[Record], vocabulary: Vocabulary) -> list[str]:
    """Both sums for a terminal; [] where nobody said anything of troubles."""
    seen, helped = troubles_seen(records), what_helped(records, vocabulary)
    lines = [f"{SEEN}:"] if seen else []
    for row in map(shown_seen, (item for item in seen if item.shown)):
        lines.append(f"  {row.trouble}: in {row.shown} prints that were looked at for it ({row.grades}): {row.share}")
    lines += [f"  {never_seen(seen)}"] if never_seen(seen) else []
    lines += [f"{HELPED}:"] if helped else []
    for item in map(shown_help, helped):
        others = f" ({item.others})" if item.others else ""
        lines.append(f"  {item.trouble}: {item.tried}: better {item.better}{others}: {item.share}")
    return [*lines, *([HOW_SEEN] if seen else []), *([HOW_HELPED] if helped else [])]


def troubles_json(records: Sequence[Record], vocabulary: Vocabulary) -> dict[str, Any]:
    """Both sums as data."""
    return {
        "seen": [
            {
                "trouble": item.trouble,
                "poor": item.poor,
                "fair": item.fair,
                "good": item.good,
                "interval": _interval(item.interval),
            }
            for item in troubles_seen(records)
        ],
        "tried": [
            {
                "trouble": item.trouble,
                "moves": dict(item.tried.moves),
                "did": list(item.tried.did),
                "better": item.better,
                "same": item.same,
                "worse": item.worse,
                "interval": _interval(item.interval),
            }
            for item in what_helped(records, vocabulary)
        ],
    }


def _interval(interval: ShareInterval) -> dict[str, float]:
    return {"low": interval.low, "high": interval.high, "confidence": interval.level}


def mend_text(mend: TriedMend) -> str:
    """One mend of a record: ``stringing poor: retraction.distance 4 mm → 5 mm; it got better``."""
    saw = ", ".join(f"{name} {grade}" for name, grade in mend.saw.items() if grade != "good")
    changes = [f"{name} {before} → {after}" for name, (before, after) in mend.changes.items()]
    came = {"": "", "better": "; it got better", "same": "; no difference", "worse": "; it got worse"}[mend.came]
    head = saw or ", ".join(mend.troubles) or "mended"
    return f"{head}: {', '.join((*mend.did, *changes))}{came}"
