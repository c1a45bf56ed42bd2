"""One law for a whole group, where that says more with less than a law for each member."""

from collections.abc import Iterator, Mapping
from math import log2

from profilesmith.distil.bits import CLOSE, KINDS, grid_of
from profilesmith.distil.fit import fits
from profilesmith.distil.law import Law, unexplained
from profilesmith.distil.operands import fact_laws
from profilesmith.distil.sample import SampleWorld, Seen
from profilesmith.distil.weigh import WeighedLaw, rank
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.vocabulary.setting import Group


class Shared(NamedTuple):
    """A law of a group. kept: the members that it is to hold for; excluded: those with a law of their own.

    bits: of all members; own: of the kept ones alone.
    """

    group: str
    law: Law
    bits: float
    kept: tuple[str, ...]
    excluded: tuple[str, ...]
    exceptions: tuple[Seen, ...]
    own: float


def shared_law(group: Group, own: Mapping[str, WeighedLaw], world: SampleWorld) -> Shared | None:
    """The best law for a group, or None when its members are described shorter one by one.

    own: the best description of each member alone.
    """
    members = [name for name in group.members if name in world.seen]
    touched = [name for name in members if any(item.touched for item in world.seen[name])]
    if len(touched) < 2:
        return None
    apart = sum(own[name].bits for name in members)
    tried = [shared for law in _laws(group, own, world, members) if (shared := _split(group, law, own, world, members))]
    best = min(
        tried, key=lambda shared: (round(shared.bits, 6), len(shared.exceptions), *rank(shared.law)), default=None
    )
    return best if best is not None and best.bits < apart - CLOSE else None


def _laws(group: Group, own: Mapping[str, WeighedLaw], world: SampleWorld, members: list[str]) -> Iterator[Law]:
    """Laws of all members together, those of single members, and those of the members that the first ones fit."""
    setting = world.vocabulary.settings[members[0]]
    pooled = list(_pooled(members, world))
    first = [*pooled, *dict.fromkeys(own[name].law for name in members if own[name].law is not None)]
    yield from (
        law for law in first if law is not None and not law.does.products and law.aim is None and not law.spread
    )
    kept = dict.fromkeys(
        shared.kept for law in pooled if (shared := _split(group, law, own, world, members)) and shared.excluded
    )
    for names in kept:
        yield from fits(setting, tuple(item for name in names for item in world.seen[name]), world)


def _pooled(members: list[str], world: SampleWorld) -> Iterator[Law]:
    setting = world.vocabulary.settings[members[0]]
    seen = tuple(item for name in members for item in world.seen[name])
    yield from fits(setting, seen, world)
    yield from fact_laws(setting, seen, world)


def _split(
    group: Group, law: Law, own: Mapping[str, WeighedLaw], world: SampleWorld, members: list[str]
) -> Shared | None:
    """Keep the members that are told shorter inside the group than apart."""
    grid = log2(grid_of(world.vocabulary.settings[members[0]]))
    total = sum(len(world.seen[name]) for name in members)
    bits = log2(len(KINDS)) + len(law.values) * grid + (law.operand is not None)
    kept: list[str] = []
    excluded: list[str] = []
    exceptions: list[Seen] = []
    gained = 0
    for name in members:
        seen = world.seen[name]
        missed = unexplained(law, seen, world)
        explained = sum(item.touched for item in seen) - sum(item.touched for item in missed)
        inside, outside = len(missed) * (log2(total) + grid), log2(len(group.members)) + own[name].bits
        better = own[name].law is not None and len(own[name].exceptions) < len(missed)
        keep = inside <= outside and not (better and not explained)
        bits += inside if keep else outside
        (kept if keep else excluded).append(name)
        exceptions += missed if keep else ()
        gained += bool(explained) if keep else 0
    own_bits = bits - sum(own[name].bits for name in excluded)
    enough = gained > max(1, len(law.values)) and len(excluded) * 2 <= len(group.members)
    return Shared(group.name, law, bits, tuple(kept), tuple(excluded), tuple(exceptions), own_bits) if enough else None
