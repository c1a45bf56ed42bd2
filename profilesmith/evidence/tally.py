"""Records to an honest sum: k worked of n, and what that allows to be said.

``partly`` counts as not worked, and is shown. Records count for a version when major and minor number are the same (and
what stands behind a hyphen): a patch release mends words, not values. All others are told, but never counted.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from fractions import Fraction

from profilesmith.evidence.interval import LEVEL, ShareInterval, exact_interval
from profilesmith.evidence.record import JUDGED, Record
from profilesmith.evidence.withdrawal import Withdrawal
from profilesmith.facts.facts import fact_kinds, read_fact
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.number import plain_text
from profilesmith.ledger.history import GRADES, Grade

FEW = 3
"""Below so many prints the range is so wide that its ends alone would mislead."""
CONFIDENCE = f"{LEVEL * 100:.0f} %"
OF_SEVERAL = "in prints with other recipes too"
WHOLE = "of the whole print: "


class Tally(NamedTuple):
    """records: those that count, the newest first; of one day the one that was entered last; others: those of other
    versions. interval: None without a record.

    seen: record's id -> what was observed of its print, where that stands in the record of another of its recipes.
    withdrawn: records that count no more, the newest first, each with what says so.
    """

    recipe: str
    version: str
    records: tuple[Record, ...]
    others: tuple[Record, ...]
    worked: int
    partly: int
    failed: int
    interval: ShareInterval | None
    seen: Mapping[str, Mapping[str, Grade]] = {}
    withdrawn: tuple[tuple[Record, Withdrawal], ...] = ()

    @property
    def tried(self) -> int:
        return len(self.records)

    def observed(self, record: Record) -> Mapping[str, Grade]:
        """What was observed of a record's print."""
        return record.judged or self.seen.get(record.id, {})


def line_of_version(version: str) -> str:
    """What versions that count together have in common: ``1.2`` of ``1.2.3``, ``1.2-draft`` of ``1.2.0-draft``."""
    match = re.match(r"(\d+\.\d+)\.\d+(-[0-9A-Za-z.-]+)?", version)
    return f"{match.group(1)}{match.group(2) or ''}" if match else version


def tally(
    recipe: str,
    version: str,
    records: Iterable[Record],
    seen: Mapping[str, Mapping[str, Grade]] | None = None,
    withdrawals: Iterable[Withdrawal] = (),
) -> Tally:
    """Sum up the records of a recipe. seen: as Tally has it. withdrawals: of any records."""
    gone: dict[str, Withdrawal] = {}
    for one in withdrawals:
        gone.setdefault(one.withdraws, one)
    every = [item for item in records if item.recipe == recipe]
    every = sorted(every, key=lambda item: item.date)[::-1]  # sorting keeps the order of entry within a day
    mine = [item for item in every if item.id not in gone]
    wanted = line_of_version(version)
    counted = tuple(item for item in mine if line_of_version(item.version) == wanted)
    worked, partly, failed = (sum(item.outcome == word for item in counted) for word in ("worked", "partly", "failed"))
    return Tally(
        recipe=recipe,
        version=version,
        records=counted,
        others=tuple(item for item in mine if line_of_version(item.version) != wanted),
        worked=worked,
        partly=partly,
        failed=failed,
        interval=exact_interval(worked, len(counted)) if counted else None,
        seen=seen or {},
        withdrawn=tuple((item, gone[item.id]) for item in every if item.id in gone),
    )


def percent_range(interval: ShareInterval) -> str:
    """``29 % to 100 %``, rounded outwards: a limit is never told narrower than it is."""
    return f"{_down(interval.low)} % to {_up(interval.high)} %"


def _down(share: float) -> int:
    return int(share * 100)


def _up(share: float) -> int:
    return -int(-share * 100 // 1)


def says(tally: Tally) -> str:
    """One sentence: ``Tried 3 times, worked 3 of 3: at least 29 % would work, with 95 % confidence.``"""
    if tally.interval is None:
        return f"Not tried yet at version {line_of_version(tally.version)}: nothing is known of how it prints."
    times = "once" if tally.tried == 1 else f"{tally.tried} times"
    partly = f", {tally.partly} partly" if tally.partly else ""
    failed = f", {tally.failed} failed" if tally.failed else ""
    head = f"Tried {times}, worked {tally.worked} of {tally.tried}{partly}{failed}"
    if tally.tried < FEW:
        return (
            f"{head}: too few to tell ({percent_range(tally.interval)} of such prints would work, with "
            f"{CONFIDENCE} confidence)."
        )
    return f"{head}: {limits(tally.worked, tally.tried, tally.interval)} would work, with {CONFIDENCE} confidence."


def limits(worked: int, tried: int, interval: ShareInterval) -> str:
    """``at least 29 %``, ``at most 71 %`` or ``between 5 % and 44 %`` of such prints."""
    if worked == tried:
        return f"at least {_down(interval.low)} %"
    if worked == 0:
        return f"at most {_up(interval.high)} %"
    return f"between {_down(interval.low)} % and {_up(interval.high)} %"


def short(tally: Tally) -> str:
    """For a list: ``3 of 3 worked (29 % to 100 %)`` or ``not tried``."""
    if tally.interval is None:
        return f"not tried ({len(tally.others)} of other versions)" if tally.others else "not tried"
    few = ", too few to tell" if tally.tried < FEW else ""
    return f"{tally.worked} of {tally.tried} worked{few} ({percent_range(tally.interval)})"


def others_say(tally: Tally) -> str:
    """One sentence on records of other versions, or ""."""
    if not tally.others:
        return ""
    worked = sum(item.outcome == "worked" for item in tally.others)
    versions = ", ".join(dict.fromkeys(line_of_version(item.version) for item in tally.others))
    count = len(tally.others)
    return (
        f"Other versions ({versions}): worked {worked} of {count}; "
        f"{'it is' if count == 1 else 'they are'} not counted here."
    )


def grades(tally: Tally) -> tuple[tuple[str, tuple[int, ...]], ...]:
    """What was judged -> how often it was good, fair and poor; only what anybody judged.

    What was observed of prints of several recipes may have come of any of them, and is counted apart.
    """
    alone = [tally.observed(item) for item in tally.records if not item.together]
    shared = [tally.observed(item) for item in tally.records if item.together]
    counted = [(word, _counts(word, alone)) for word in JUDGED]
    counted += [(f"{word}, {OF_SEVERAL}", _counts(word, shared)) for word in JUDGED]
    return tuple((word, counts) for word, counts in counted if any(counts))


def _counts(word: str, observed: Iterable[Mapping[str, Grade]]) -> tuple[int, ...]:
    seen = [item.get(word) for item in observed]
    return tuple(seen.count(grade) for grade in GRADES)


def observed_words(record: Record, observed: Mapping[str, Grade]) -> str:
    """``stringing fair``, of a print of several recipes ``of the whole print: stringing fair``; "" where nobody
    judged.
    """
    every = dict.fromkeys((*observed.items(), *record.seen.items()))
    words = ", ".join(f"{word} {grade}" for word, grade in every)
    return f"{WHOLE}{words}" if words and record.together else words


def facts_text(record: Record, subject: str) -> str:
    """``drive direct, nozzle diameter 0.4 mm``: the facts on the machine or the spool."""
    mine = ((name, text) for name, text in record.facts.items() if name.startswith(f"{subject}."))
    return ", ".join(f"{name.partition('.')[2].replace('_', ' ')} {_shown(name, text)}" for name, text in mine)


def _shown(name: str, text: str) -> str:
    """A fact for a person; a long time in hours, as a label has it."""
    kind = fact_kinds().get(name)
    value = read_fact(kind, text) if kind is not None else None
    if kind is None or value is None:
        return text
    if kind.unit_kind == "duration" and isinstance(value, Fraction) and value >= 3600:
        return f"{plain_text(value / 3600, 1)} h"
    return kind.show(value)


CAUTION = (
    "These are prints that people chose to record, on their machines, with their spools: no fair sample. "
    "The range is exact only for prints like these."
)
