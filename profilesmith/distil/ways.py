"""Whether the shares of a machine kept what they come to, or followed their references: told from its pairs."""

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction

from profilesmith.distil.sample import Sample
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.profile.profile import Entry
from profilesmith.vocabulary.setting import Value


class ShareWay(NamedTuple):
    """One machine's. kept, followed: how many shares whose reference moved speak for each."""

    machine: str
    kept: int
    followed: int


def ways(samples: Sequence[Sample]) -> tuple[ShareWay, ...]:
    """Every machine whose pairs tell one way from the other."""
    votes: dict[str, Counter[bool]] = {}
    for sample in samples:
        votes.setdefault(sample.machine, Counter()).update(_votes(sample))
    return tuple(
        ShareWay(machine, count[True], count[False]) for machine, count in votes.items() if count[True] != count[False]
    )


def by_ways(samples: Sequence[Sample]) -> tuple[Sample, ...]:
    """The samples with every machine's shares as its pairs tell; as the map says where they do not."""
    held = {way.machine: way.kept > way.followed for way in ways(samples)}
    return tuple(_as(sample, held[sample.machine]) if sample.machine in held else sample for sample in samples)


def _as(sample: Sample, held: bool) -> Sample:
    entries = {
        name: entry._replace(held=held) if entry.relative_to else entry for name, entry in sample.base.entries.items()
    }
    return sample._replace(base=sample.base._replace(entries=entries))


def _votes(sample: Sample) -> Iterator[bool]:
    """True for a share that kept its value, False for one that followed; none where rules may have moved it."""
    for name, before in sample.base.entries.items():
        after = sample.tuned.entries.get(name)
        if before.relative_to and after is not None and len(after.values) == len(before.values):
            for tool, (value, now) in enumerate(zip(before.values, after.values, strict=True)):
                vote = _vote(sample, before, after, tool, value, now)
                if vote is not None:
                    yield vote


def _vote(sample: Sample, before: Entry, after: Entry, tool: int, value: Value, now: Value) -> bool | None:
    old, new = sample.base.number(before.relative_to, tool), sample.tuned.number(before.relative_to, tool)
    share = before.shares[tool]
    if share is None or old is None or new is None or old == new:
        return None
    if not isinstance(value, Fraction) or not isinstance(now, Fraction):
        return None
    followed = now == share * new
    kept = abs(now - value) <= abs(before.grids[tool].step * new) / 2
    return None if followed == kept else kept
