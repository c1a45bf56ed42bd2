"""Records to sums of troubles: in how many of the prints that were looked at for one it showed, and how often a mend
helped.

A print is counted once: one that stands on the roads of several records, and one that is a record itself and stands on
the road of a later one. What came of a mend is what the one who made it said, or what the grades of both prints say.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Literal

from profilesmith.evidence.interval import ShareInterval, exact_interval
from profilesmith.evidence.record import Record
from profilesmith.evidence.tried_mend import TriedMend
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger.history import Grade
from profilesmith.vocabulary.setting import Vocabulary, read_value

Way = Literal["up", "down", "changed"]


class SeenTally(NamedTuple):
    """A trouble: in how many prints it was poor, fair, good. interval: of the share of prints that show it (fair
    or poor).
    """

    trouble: str
    poor: int
    fair: int
    good: int
    interval: ShareInterval

    @property
    def shown(self) -> int:
        return self.poor + self.fair

    @property
    def looked(self) -> int:
        return self.shown + self.good


class TriedTogether(NamedTuple):
    """What was moved and done together between two prints. moves: (setting, way); did: doings."""

    moves: tuple[tuple[str, Way], ...] = ()
    did: tuple[str, ...] = ()


class HelpTally(NamedTuple):
    """How often one thing was tried for a trouble, and what came of it. interval: of the share in which it got
    better.
    """

    trouble: str
    tried: TriedTogether
    better: int
    same: int
    worse: int
    interval: ShareInterval

    @property
    def times(self) -> int:
        return self.better + self.same + self.worse


_Print = tuple[object, ...]


def troubles_seen(records: Sequence[Record]) -> tuple[SeenTally, ...]:
    """For each trouble that anybody looked for; those that were seen oftenest first."""
    counts: dict[str, dict[Grade, int]] = defaultdict(lambda: {"good": 0, "fair": 0, "poor": 0})
    for seen in _prints(records):
        for trouble, grade in seen.items():
            counts[trouble][grade] += 1
    every = (_seen(name, of["poor"], of["fair"], of["good"]) for name, of in counts.items())
    return tuple(sorted(every, key=lambda item: (-item.shown, item.looked, item.trouble)))


def _seen(name: str, poor: int, fair: int, good: int) -> SeenTally:
    return SeenTally(name, poor, fair, good, exact_interval(poor + fair, poor + fair + good))


def what_helped(records: Sequence[Record], vocabulary: Vocabulary) -> tuple[HelpTally, ...]:
    """For each trouble all that was tried for it and judged; what helped most surely first."""
    counts: dict[tuple[str, TriedTogether], list[int]] = defaultdict(lambda: [0, 0, 0])
    for mend in _mends(records):
        for trouble in mend.troubles:
            counts[trouble, tried_of(mend, vocabulary)][("better", "same", "worse").index(mend.came)] += 1
    every = (
        HelpTally(name, tried, better, same, worse, exact_interval(better, better + same + worse))
        for (name, tried), (better, same, worse) in counts.items()
    )
    return tuple(sorted(every, key=lambda item: (item.trouble, -item.interval.low, -item.times, item.tried)))


def tried_of(mend: TriedMend, vocabulary: Vocabulary) -> TriedTogether:
    """Which way each setting went."""
    moves = tuple(sorted((name, _way(name, *values, vocabulary)) for name, values in mend.changes.items()))
    return TriedTogether(moves, tuple(sorted(mend.did)))


def _way(name: str, before: str, after: str, vocabulary: Vocabulary) -> Way:
    setting = vocabulary.settings[name]
    if not setting.is_number:
        return "changed"
    return "up" if read_value(setting, after) > read_value(setting, before) else "down"  # type: ignore[operator]


def _facts(record: Record) -> _Print:
    return tuple(sorted(record.facts.items()))


def _bad(seen: Mapping[str, Grade]) -> _Print:
    return tuple(sorted((name, grade) for name, grade in seen.items() if grade != "good"))


def _prints(records: Iterable[Record]) -> Iterator[Mapping[str, Grade]]:
    """What each print showed: those that are records, and those on the roads that are none."""
    records = list(records)
    known = {(_facts(record), record.date, _bad(record.seen)) for record in records if record.seen}
    yield from (record.seen for record in records if record.seen)
    for record in records:
        for mend in record.mends:
            key = _facts(record), mend.date, _bad(mend.saw)
            if mend.saw and key not in known:
                known.add(key)
                yield mend.saw


def _mends(records: Iterable[Record]) -> Iterator[TriedMend]:
    """Every mend of which it is known what came of it, once."""
    known = set()
    for record in records:
        for mend in record.mends:
            key = _facts(record), mend.date, _bad(mend.saw), tuple(sorted(mend.changes.items())), mend.did
            if mend.came and key not in known:
                known.add(key)
                yield mend
