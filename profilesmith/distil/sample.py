"""What a pair shows: a Sample (one pair as read), a Seen (one value of it before and after), and a SampleWorld of
samples.
"""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Literal

from profilesmith.facts.facts import Facts
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.profile.profile import Absent, Entry, Grid, Profile
from profilesmith.recipe.constants import hard_limits
from profilesmith.recipe.operations import Demand
from profilesmith.recipe.recipe import Recipe
from profilesmith.recipe.resolve import Resolver
from profilesmith.recipe.tool import BORE
from profilesmith.vocabulary.setting import Setting, Value, Vocabulary

HAND_ROUNDING = Fraction(1, 16)
"""A hand rounds to the decimals that its file writes, but moves a value by no more than this share of it."""


class Sample(NamedTuple):
    """A base and its tuned version. name, machine: for messages; pairs of one machine share the machine's name.

    written: for each setting the step of the tuned text's own decimals, in canonical units (or shares), one a tool.
    """

    name: str
    machine: str
    base: Profile
    tuned: Profile
    facts: Facts
    written: Mapping[str, tuple[Fraction, ...]] = {}


class Seen(NamedTuple):
    """One value of one pair. before: as rules meet it (a share follows its reference); None where it was added.

    slack: how far the tuned value may lie from what a rule gives, because of the text's rounding.
    inside: whether no hard limit had a say in either value.
    """

    pair: int
    tool: int
    setting: str
    before: Value | None
    after: Value
    grid: Grid = Grid()
    slack: Fraction = Fraction(0)
    limits: tuple[Demand, ...] = ()
    inside: bool = False

    @property
    def touched(self) -> bool:
        return self.before != self.after


class NotSeen(NamedTuple):
    """A difference that no rule can be learnt from. absent: why the tuned text has no value, None for no key.

    word: that the vocabulary does not have.
    """

    pair: int
    setting: str
    reason: Literal["no value", "changed by hand", "no word", "not addable"]
    absent: Absent | None = None
    word: Value = ""


class SampleWorld(NamedTuple):
    """All samples, and for each the resolver that knows its facts and settings."""

    samples: tuple[Sample, ...]
    vocabulary: Vocabulary
    resolvers: tuple[Resolver, ...]
    seen: Mapping[str, tuple[Seen, ...]]
    not_seen: tuple[NotSeen, ...]

    def machines(self) -> list[str]:
        return list(dict.fromkeys(sample.machine for sample in self.samples))

    def machine(self, seen: Seen) -> str:
        return self.samples[seen.pair].machine


def world_of(samples: Sequence[Sample], vocabulary: Vocabulary) -> SampleWorld:
    """All that the samples show, setting by setting in the vocabulary's order."""
    empty = Recipe(name="distilled", version="1.0.0", title="", rules=(), inputs={})
    resolvers = tuple(Resolver(empty, {}, sample.facts, sample.base, vocabulary) for sample in samples)
    seen: dict[str, list[Seen]] = {}
    not_seen: list[NotSeen] = []
    for name, setting in vocabulary.settings.items():
        for number, sample in enumerate(samples):
            of_pair = _of_pair(number, sample, setting)
            if isinstance(of_pair, NotSeen):
                not_seen.append(of_pair)
            elif of_pair:
                seen.setdefault(name, []).extend(of_pair)
    return SampleWorld(
        tuple(samples), vocabulary, resolvers, {name: tuple(items) for name, items in seen.items()}, tuple(not_seen)
    )


def _of_pair(number: int, sample: Sample, setting: Setting) -> list[Seen] | NotSeen:
    before, after = sample.base.entries.get(setting.id), sample.tuned.entries.get(setting.id)
    if after is None:
        absent = sample.tuned.absent.get(setting.id)
        return NotSeen(number, setting.id, "no value", absent) if before is not None else []
    if setting.id == BORE:
        same = before is not None and before.values == after.values
        return [] if same else NotSeen(number, setting.id, "changed by hand")
    odd = [value for value in after.values if setting.values and value not in setting.values]
    if odd:
        return (
            NotSeen(number, setting.id, "no word", word=odd[0])
            if before is None or before.values != after.values
            else []
        )
    if _gave_way(sample, setting.id, before, after):
        return []
    limits = tuple(limit.demand for limit in hard_limits(setting, sample.facts))
    if before is None:
        grid = sample.base.addable.get(setting.id)
        if grid is None:
            return NotSeen(number, setting.id, "not addable")
        return [Seen(number, 0, setting.id, None, after.value, grid, _slack(sample, after, 0, grid), limits)]
    return _of_tools(number, sample, before, after, limits)


def _gave_way(sample: Sample, name: str, before: Entry | None, after: Entry) -> bool:
    """Whether a switch only went off because another one took its key: what went on is learnt from, not this."""
    if before is None or before.values[0] is not True or after.values[0] is not False:
        return False
    others = (key.settings for key in sample.base.one_keys if name in key.settings)
    return any(sample.tuned.values(other)[:1] == (True,) for names in others for other in names)


def _of_tools(number: int, sample: Sample, before: Entry, after: Entry, limits: tuple[Demand, ...]) -> list[Seen]:
    by_values: dict[tuple[Value, Value], Seen] = {}
    coupling = before.coupling
    if coupling is not None:
        switch = sample.tuned.entries.get(coupling.switch)
        if switch is None or not switch.value:
            return []  # its switch is off: rules leave the number alone
        limits = (*limits, Demand(low=coupling.lowest)) if coupling.lowest is not None else limits
    for tool, value in enumerate(after.values):
        at = tool if tool < len(before.values) else 0
        grid = before.grids[at] if before.grids else Grid()
        share = before.shares[at] if before.shares else None
        reference = sample.tuned.number(before.relative_to, tool) if share is not None else None
        present: Value = before.values[at]
        if share is not None and reference is not None:
            grid = grid.scaled(reference) if reference else Grid()
            present = value if _as_near(before, present, value, grid) else present if before.held else share * reference
        if coupling is not None and coupling.on_value is not None and not sample.base.entries[coupling.switch].value:
            present = coupling.on_value
        if type(present) is type(value):
            seen = Seen(
                number,
                tool,
                before.setting,
                present,
                value,
                grid,
                _slack(sample, after, tool, grid),
                limits,
                _inside(present, value, limits),
            )
            by_values.setdefault((present, value), seen)
    return list(by_values.values())


def _as_near(before: Entry, kept: Value, after: Value, grid: Grid) -> bool:
    """Whether a share that is held was rewritten to as near its old value as it can say."""
    if not before.held or not isinstance(kept, Fraction) or not isinstance(after, Fraction):
        return False
    return abs(after - kept) <= abs(grid.step) / 2


def _inside(before: Value, after: Value, limits: tuple[Demand, ...]) -> bool:
    """Whether both values lie between all hard limits, the tuned one at none of them."""
    if not isinstance(before, Fraction) or not isinstance(after, Fraction):
        return False
    lows, highs = (
        (
            [end for end in ends if end is not None]
            for ends in zip(*((limit.low, limit.high) for limit in limits), strict=True)
        )
        if limits
        else ([], [])
    )
    return all(end <= before and end < after for end in lows) and all(end >= before and end > after for end in highs)


def _slack(sample: Sample, after: Entry, tool: int, grid: Grid) -> Fraction:
    """Half of the step that the text is written in, within what a hand would round; at least half of the grid's."""
    value = after.values[tool]
    if not isinstance(value, Fraction):
        return Fraction(0)
    step = Fraction(0) if grid.whole else abs(grid.step)
    steps = sample.written.get(after.setting, ())
    written = steps[tool] if tool < len(steps) else Fraction(0)
    if after.shares and after.shares[tool] is not None:
        written *= abs(sample.tuned.number(after.relative_to, tool) or Fraction(0))
    return max(step / 2, min(written / 2, abs(value) * HAND_ROUNDING))
