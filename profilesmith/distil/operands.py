"""Laws whose bound is no fixed number: a fact, a flow, a held product, a share of another setting."""

from collections.abc import Iterable, Iterator
from fractions import Fraction

from profilesmith.distil.allowed import allowed
from profilesmith.distil.interval import Interval, densest, roundest
from profilesmith.distil.law import Law
from profilesmith.distil.sample import SampleWorld, Seen
from profilesmith.facts.facts import FactKind, fact_kinds
from profilesmith.foundation.number import decimal_text
from profilesmith.recipe.operations import LEARNED, VALUE, WINDOW, Operation
from profilesmith.recipe.recipe import FactRef, Fixed, FlowRef, SettingRef
from profilesmith.vocabulary.setting import Setting

BOUNDS = tuple(item for item in LEARNED if item.is_bound and item.operands == 1 and item.reads == VALUE)
"""Bounds with one end, the gentlest first."""
HELD = tuple((item, word, product) for item in LEARNED for word, product in item.products.items())
HEATED = ("nozzle", "bed", "chamber")
"""What temperatures are of; a fact bounds the temperature of its own part only."""
DIGITS = 2
"""A share of another setting is believed only when it is as round as people write it."""


def facts_for(setting: Setting, seen: Iterable[Seen], world: SampleWorld) -> list[FactKind]:
    """Facts that some pair knows and that could bound a setting."""
    known = dict.fromkeys(name for item in seen for name in world.samples[item.pair].facts)
    kinds = [fact_kinds()[name] for name in known]
    wanted = {setting.kind, "flow"} if setting.kind == "speed" else {setting.kind}
    return [
        kind
        for kind in kinds
        if kind.kind in ("quantity", "window") and kind.unit_kind in wanted and _of_one_part(kind.name, setting)
    ]


def _of_one_part(fact: str, setting: Setting) -> bool:
    """Whether a fact can be meant: a bed that was set to the spool's drying temperature is a coincidence."""
    parts = [part for part in HEATED if part in setting.id]
    return setting.kind != "temperature" or any(part in fact for part in parts)


def fact_laws(setting: Setting, seen: tuple[Seen, ...], world: SampleWorld) -> Iterator[Law]:
    """Bounds that a fact gives."""
    if not any(item.touched for item in seen):
        return
    for kind in facts_for(setting, seen, world):
        if kind.kind == "window":
            yield Law(WINDOW.name, operand=FactRef(kind.name))
        elif kind.unit_kind == "flow" and setting.kind == "speed":
            flow = FlowRef(FactRef(kind.name))
            yield from (Law(bound.name, operand=flow) for bound in BOUNDS if not bound.raises)
        else:
            yield from (Law(bound.name, operand=FactRef(kind.name)) for bound in BOUNDS)


def held_laws(setting: Setting, seen: tuple[Seen, ...], world: SampleWorld) -> Iterator[Law]:
    """Products that are kept, where the other factor changed in some pair."""
    for holding, word, product in HELD:
        pairs = [world.samples[item.pair] for item in seen]
        moved = [
            sample for sample in pairs if sample.base.number(product.partner) != sample.tuned.number(product.partner)
        ]
        if setting.id in product.settings and moved and any(item.touched for item in seen):
            yield Law(holding.name, operand=Fixed(word))


def others_for(setting: Setting, world: SampleWorld, free: Iterable[str]) -> list[str]:
    """Settings of the same kind that could be the reference."""
    kinds = world.vocabulary.settings
    return [name for name in free if name != setting.id and kinds[name].kind == setting.kind and setting.is_number]


def relative_laws(setting: Setting, seen: tuple[Seen, ...], world: SampleWorld, free: Iterable[str]) -> Iterator[Law]:
    """Shares of another setting's tuned value, of two changed pairs at least: of one, some setting's share fits by
    chance.

    free: the settings that depend on no other.
    """
    if setting.kind in ("temperature", "angle", "count") or len({item.pair for item in seen if item.touched}) < 2:
        return
    for other in others_for(setting, world, free):
        for bound in BOUNDS:
            times = _times(bound, seen, world, other)
            if times is not None:
                yield Law(bound.name, operand=SettingRef(other, times))


def _times(bound: Operation, seen: tuple[Seen, ...], world: SampleWorld, other: str) -> Fraction | None:
    regions = []
    for item in seen:
        reference = world.samples[item.pair].tuned.number(other, item.tool)
        region = allowed(bound, item)
        if reference is not None and reference > 0 and region is not None:
            ends = (None if end is None else end / reference for end in region)
            regions.append(Interval(*ends))
    for region in densest(regions, 1):
        if region.low is not None and region.high is not None:
            value = roundest(region, (region.low + region.high) / 2)
            digits = decimal_text(value, 6).replace(".", "").strip("0")
            return value if value > 0 and len(digits) <= DIGITS else None
    return None
