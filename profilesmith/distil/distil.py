"""Pairs in, findings out: the laws of single settings are weighed first, then groups, then what machines do apart."""

from collections.abc import Sequence
from math import log2
from typing import Literal

from profilesmith.distil.bits import KINDS
from profilesmith.distil.finding import Distilled, DistilledRule, NoRule, RuleDoubt, Tweak
from profilesmith.distil.groups import Shared, shared_law
from profilesmith.distil.sample import Sample, SampleWorld, Seen, world_of
from profilesmith.distil.settle import rivals_of, settling_pair
from profilesmith.distil.tweaks import leftovers, tweak_of
from profilesmith.distil.ways import by_ways, ways
from profilesmith.distil.weigh import WeighedLaw, candidates, no_rule_bits, weigh, worth
from profilesmith.recipe.recipe import SettingRef
from profilesmith.vocabulary.setting import Vocabulary

FEWEST = 3  # pairs from which on conditions compete
RIVAL = 8.0  # bits that a condition may cost more than an exception that nothing explains


def distil(samples: Sequence[Sample], vocabulary: Vocabulary) -> Distilled:
    """Everything that the pairs show, in the vocabulary's order."""
    samples = by_ways(samples)
    world = world_of(samples, vocabulary)
    own, tried = _alone(world)
    shared = [
        _of_group(common, world)
        for group in vocabulary.groups.values()
        if (common := shared_law(group, own, world)) is not None
    ]
    findings = [item for item in shared if _sound(item)]
    covered = {name for item in findings for name in item.settings}
    single = [
        _of_setting(name, own[name], tried[name], world)
        for name in own
        if own[name].law is not None and name not in covered
    ]
    findings += [item for item in single if _sound(item)]
    unsound = {name for item in single if not _sound(item) for name in item.settings}
    findings, tweaks = _machine_only(_joined(findings, world), world)
    no_rule: list[NoRule] = []
    for name, seen in world.seen.items():
        if any(tweak.setting == name for tweak in tweaks):
            continue
        finding = next((item for item in findings if name in item.settings), None)
        left = (
            tuple(item for item in seen if item.touched)
            if finding is None
            else tuple(item for item in finding.exceptions if item.setting == name)
        )
        more, none = leftovers(name, seen, left, world, finding, name in unsound)
        tweaks, no_rule = [*tweaks, *more], [*no_rule, *none]
    order = {name: number for number, name in enumerate(vocabulary.settings)}
    findings.sort(key=lambda item: min(order[name] for name in item.settings))
    return Distilled(tuple(samples), tuple(findings), tuple(tweaks), tuple(no_rule), world.not_seen, ways(samples))


def _sound(finding: DistilledRule) -> bool:
    """Whether a rule may go into a recipe: of several pairs more must speak for it than against. One pair alone can
    only be guessed from.
    """
    return len({item.pair for item in finding.seen}) == 1 or not finding.contradicted


def _alone(world: SampleWorld) -> tuple[dict[str, WeighedLaw], dict[str, list[WeighedLaw]]]:
    """The best description of every setting by itself, and all laws that were tried for it."""
    own: dict[str, WeighedLaw] = {}
    tried: dict[str, list[WeighedLaw]] = {}
    numbers = [name for name in world.seen if world.vocabulary.settings[name].is_number]
    dependent: set[str] = set()
    for name, seen in world.seen.items():
        setting = world.vocabulary.settings[name]
        free = [other for other in numbers if other not in dependent and not _follows(other, name, world)]
        tried[name] = candidates(setting, seen, world, free) if any(item.touched for item in seen) else []
        best = _where_it_holds(tried[name], seen, world) if tried[name] else None
        if best is not None and worth(best, setting, seen, world):
            own[name] = best
            dependent |= {name} if best.law is not None and isinstance(best.law.operand, SettingRef) else set()
        else:
            plain = weigh(None, setting, seen, world)
            own[name] = plain._replace(bits=no_rule_bits(setting, seen, world)) if plain.exceptions else plain
    return own, tried


def _where_it_holds(tried: Sequence[WeighedLaw], seen: Sequence[Seen], world: SampleWorld) -> WeighedLaw:
    """The best law; from three pairs on, of those that say nearly as much one whose condition leaves aside all that
    speaks against the best: a machine of another kind is no exception.
    """
    best = tried[0]
    if best.law is None or best.law.when or not best.exceptions or len({item.pair for item in seen}) < FEWEST:
        return best
    for item in tried:
        when = item.law.when if item.law is not None else ()
        aside = all(world.resolvers[left.pair].condition(when) is False for left in item.exceptions)
        if when and aside and item.bits - best.bits < RIVAL:
            return item
    return best


def _follows(other: str, name: str, world: SampleWorld) -> bool:
    """Whether some text writes ``other`` as a share of ``name``: a rule the other way round would be a circle."""
    entries = (sample.base.entries.get(other) for sample in world.samples)
    return any(entry is not None and entry.relative_to == name for entry in entries)


def _of_setting(name: str, best: WeighedLaw, tried: list[WeighedLaw], world: SampleWorld) -> DistilledRule:
    assert best.law is not None
    setting, seen = world.vocabulary.settings[name], world.seen[name]
    rivals = rivals_of(best, tried, seen, world)
    without = no_rule_bits(setting, seen, world)
    return _doubted(
        DistilledRule((name,), (), (name,), best.law, seen, best.exceptions, best.bits, without, rivals), world
    )


def _of_group(shared: Shared, world: SampleWorld) -> DistilledRule:
    seen = tuple(item for name in shared.kept for item in world.seen[name])
    setting = world.vocabulary.settings[shared.kept[0]]
    chosen = WeighedLaw(shared.law, shared.own, shared.exceptions)
    rivals = rivals_of(chosen, candidates(setting, seen, world), seen, world)
    without = sum(no_rule_bits(world.vocabulary.settings[name], world.seen[name], world) for name in shared.kept)
    named, excluded = (shared.group,), shared.excluded
    return _doubted(
        DistilledRule(named, excluded, shared.kept, shared.law, seen, shared.exceptions, shared.own, without, rivals),
        world,
    )


def _doubted(finding: DistilledRule, world: SampleWorld) -> DistilledRule:
    """Say what makes a finding unsure and which pair would settle it."""
    aside = frozenset(
        item.pair
        for item in finding.seen
        if finding.law.when and world.resolvers[item.pair].condition(finding.law.when) is not True
    )
    finding = finding._replace(aside=aside)
    doubts: list[RuleDoubt] = []
    if len({item.pair for item in finding.seen}) == 1:
        doubts += [RuleDoubt("one pair"), *([RuleDoubt("a guess")] if finding.longer else [])]
    elif len(finding.changed) == 1:
        doubts.append(_alone_in_it("by one pair", finding))
    elif len(world.machines()) > 1 and len({world.machine(item) for item in finding.explained}) == 1:
        doubts.append(_alone_in_it("by one machine", finding))
    if finding.rivals:
        names = dict.fromkeys(law.leads.name for law in (finding.law, *finding.rivals))
        doubts.append(RuleDoubt("rivals", laws=tuple(names)))
    if not doubts:
        return finding
    setting = world.vocabulary.settings[finding.settings[0]]
    settle = settling_pair(finding.law, finding.rivals, setting, finding.seen, world)
    return finding._replace(doubts=tuple(doubts), settle=settle)


def _alone_in_it(code: Literal["by one pair", "by one machine"], finding: DistilledRule) -> RuleDoubt:
    """With what the pairs did that do not speak for a rule by a change."""
    against = {item.pair for item in finding.exceptions} - finding.changed
    return RuleDoubt(code, len(finding.met), len(finding.aside), len(against))


def _joined(findings: list[DistilledRule], world: SampleWorld) -> list[DistilledRule]:
    """One rule for neighbouring settings of which exactly the same is asked."""
    joined: dict[tuple[object, ...], DistilledRule] = {}
    for item in findings:
        setting = world.vocabulary.settings[item.settings[0]]
        key: tuple[object, ...] = (setting.kind, setting.area, item.law) if item.named == item.settings else item.named
        first = joined.get(key)
        joined[key] = item if first is None else _together(first, item, world)
    return list(joined.values())


def _together(first: DistilledRule, more: DistilledRule, world: SampleWorld) -> DistilledRule:
    rivals = tuple(law for law in first.rivals if law in more.rivals)
    joined = DistilledRule(
        named=(*first.named, *more.named),
        excluded=(),
        settings=(*first.settings, *more.settings),
        law=first.law,
        seen=(*first.seen, *more.seen),
        exceptions=(*first.exceptions, *more.exceptions),
        bits=first.bits + more.bits - log2(len(KINDS)),
        without=first.without + more.without,
        rivals=rivals,
    )
    return _doubted(joined, world)


def _machine_only(findings: list[DistilledRule], world: SampleWorld) -> tuple[list[DistilledRule], list[Tweak]]:
    """Findings on settings that one machine of several has: offered as its tweaks."""
    kept, tweaks = [], []
    for item in findings:
        machines = {world.machine(seen) for seen in item.seen}
        if len(machines) > 1 or len(world.machines()) == 1:
            kept.append(item)
            continue
        tweaks += [
            tweak_of(machines.copy().pop(), name, world.seen[name], world, None)
            for name in item.settings
            if any(seen.touched for seen in world.seen[name])
        ]
    return kept, tweaks


__all__ = ["Distilled", "DistilledRule", "Sample", "Seen", "distil"]
