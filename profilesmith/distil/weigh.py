"""All laws for one setting, weighed by description length: the shortest that is shorter than no rule."""

from collections.abc import Iterable
from math import log2

from profilesmith.distil.beside import above_laws, spread_laws
from profilesmith.distil.bits import CLOSE, KINDS, grid_of, list_bits, rule_bits, width_bits
from profilesmith.distil.conditions import clauses, conditional_laws
from profilesmith.distil.fit import fits
from profilesmith.distil.law import Law, figures, unexplained
from profilesmith.distil.operands import fact_laws, facts_for, held_laws, others_for, relative_laws
from profilesmith.distil.sample import SampleWorld, Seen
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.recipe.operations import LEARNED
from profilesmith.recipe.recipe import FactRef, FlowRef, SettingRef
from profilesmith.vocabulary.setting import Setting


class WeighedLaw(NamedTuple):
    """A law (None: unchanged) with its bits and the values that it does not give."""

    law: Law | None
    bits: float
    exceptions: tuple[Seen, ...]


def weigh(
    law: Law | None, setting: Setting, seen: tuple[Seen, ...], world: SampleWorld, free: Iterable[str] = ()
) -> WeighedLaw:
    """The description length of a law for these values."""
    exceptions = unexplained(law, seen, world)
    parameters, more = _choices(law, setting, seen, world, free)
    bits = rule_bits(len(KINDS), grid_of(setting), len(seen), parameters, len(exceptions)) + more
    return WeighedLaw(law, bits, exceptions)


def _choices(
    law: Law | None, setting: Setting, seen: tuple[Seen, ...], world: SampleWorld, free: Iterable[str]
) -> tuple[int, float]:
    """How many parameters a law has, and the bits of what it picks from a list: a fact, a setting, a condition."""
    if law is None:
        return 0, 0.0
    if isinstance(law.aim, SettingRef):
        return 1, 0.0  # the step; where it ends is the last value that was seen
    parameters, more = len(law.values), 0.0
    if isinstance(law.operand, FactRef | FlowRef):
        more += log2(max(1, len(facts_for(setting, seen, world))))
    if isinstance(law.operand, SettingRef):
        parameters += 1
        more += log2(max(1, len(others_for(setting, world, free))))
    if law.when:
        more += log2(max(1, len(clauses(seen, world))))
    if law.spread:
        return 1, more + _spread_bits(law, setting, seen)
    return parameters, more


def _spread_bits(law: Law, setting: Setting, seen: tuple[Seen, ...]) -> float:
    """That it is a spread, how wide it is, and where inside each tuned value lies."""
    low, high = law.values
    steps = int((high - low) / setting.step) + 1 if setting.step else 2  # type: ignore[operator]
    inside = sum(item.touched and law.holds(item.after, item.slack) for item in seen)
    return 1 + width_bits(steps) + inside * log2(steps)


def candidates(
    setting: Setting, seen: tuple[Seen, ...], world: SampleWorld, free: Iterable[str] = ()
) -> list[WeighedLaw]:
    """All laws, the shortest first. Conditions and references are tried only where no plain law explains everything."""
    laws = [*fits(setting, seen, world), *fact_laws(setting, seen, world), *held_laws(setting, seen, world)]
    weighed = [weigh(law, setting, seen, world) for law in laws]
    if not any(not item.exceptions and not (item.law and item.law.does.once) for item in weighed):
        weighed += [weigh(law, setting, seen, world) for law in above_laws(setting, seen, world)]
    if not any(not item.exceptions for item in weighed):
        laws = [*conditional_laws(setting, seen, world), *relative_laws(setting, seen, world, free)]
        laws += spread_laws(setting, seen)
        weighed += [weigh(law, setting, seen, world, free) for law in laws]
    return sorted(weighed, key=lambda item: (round(item.bits, 6), len(item.exceptions), *rank(item.law)))


def rank(law: Law | None) -> tuple[int, int, str]:
    """Of equally short laws the one with the rounder numbers goes first, then the gentler one."""
    return (-1, -1, "") if law is None else (figures(law), LEARNED.index(law.does), str(law))


def worth(best: WeighedLaw, setting: Setting, seen: tuple[Seen, ...], world: SampleWorld) -> bool:
    """Whether a law says it shorter than "unchanged, but for ..." and than a plain list. One pair alone shows nothing
    else.
    """
    pairs = {item.pair for item in seen}
    if len(pairs) == 1:
        return not best.exceptions
    explained = {item.pair for item in seen if item.touched} - {item.pair for item in best.exceptions}
    return bool(explained) and best.bits < no_rule_bits(setting, seen, world) - CLOSE


def no_rule_bits(setting: Setting, seen: tuple[Seen, ...], world: SampleWorld) -> float:
    """The shorter of "unchanged, but for ..." and a plain list. Of switches and words a list is always short: it proves
    nothing.
    """
    plain = weigh(None, setting, seen, world).bits
    return min(plain, list_bits(grid_of(setting), len(seen))) if setting.is_number else plain
