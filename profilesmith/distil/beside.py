"""Laws of a bound with an aim inside it: values that lie near one another, and a first layer that is always so much
hotter than the rest.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction

from profilesmith.distil.interval import Interval, densest, roundest
from profilesmith.distil.law import Law
from profilesmith.distil.sample import SampleWorld, Seen
from profilesmith.foundation.number import decimal_text
from profilesmith.foundation.quantity import CANONICAL
from profilesmith.recipe.operations import CAP, RAISE_TO, WINDOW
from profilesmith.recipe.recipe import SettingRef
from profilesmith.vocabulary.setting import Setting

FEWEST = 3  # pairs from which on values near one another are taken for a window
NEAR = Fraction(1, 10)  # of the value; a count of walls is never near another one
FIRST = "first_layer."


def spread_laws(setting: Setting, seen: tuple[Seen, ...]) -> Iterator[Law]:
    """The window that all tuned values lie in, each at its own place. With an aim, which is one of them; without where
    a base that lies inside was left alone.
    """
    touched = [item for item in seen if item.touched]
    after = Counter(item.after for item in touched if isinstance(item.after, Fraction))
    if not setting.is_number or len({item.pair for item in touched}) < FEWEST or len(after) < 2:
        return
    low, high = min(after), max(after)
    if setting.kind == "count" or (high - low) > NEAR * high:
        return
    still = [item for item in seen if not item.touched and low <= item.after <= high]  # type: ignore[operator]
    middle = (low + high) / 2
    aim = min(after, key=lambda value: (abs(value - middle), -after[value], value))
    yield Law(WINDOW.name, (low, high), aim=None if still else aim, spread=True)


def above_laws(setting: Setting, seen: tuple[Seen, ...], world: SampleWorld) -> Iterator[Law]:
    """A temperature of the first layer as that of the layers above it plus a step, as far as these pairs went."""
    rest = setting.id.removeprefix(FIRST).replace("_", ".", 1)
    if not setting.id.startswith(FIRST) or setting.kind != "temperature" or rest not in world.vocabulary.settings:
        return
    if len({item.pair for item in seen if item.touched}) < 2:
        return
    step = _step(seen, rest, world)
    bound = limit(step, seen) if step else None
    if step and bound is not None:
        yield bound._replace(aim=SettingRef(rest, plus=f"{decimal_text(step, 6)} {CANONICAL[setting.kind]}"))


def _step(seen: Sequence[Seen], rest: str, world: SampleWorld) -> Fraction | None:
    """By how much most values lie above those of the other setting."""
    regions = []
    for item in seen:
        reference = world.samples[item.pair].tuned.number(rest, item.tool)
        if reference is not None and isinstance(item.after, Fraction):
            apart = item.after - reference
            regions.append(Interval(apart - item.slack, apart + item.slack))
    for region in densest(regions, 1):
        if region.low is not None and region.high is not None:
            return roundest(region, (region.low + region.high) / 2)
    return None


def limit(step: Fraction, seen: Sequence[Seen]) -> Law | None:
    """How far a step may lead: to the highest value (or lowest, of a step downwards) that these pairs printed with."""
    after = [item.after for item in seen if isinstance(item.after, Fraction)]
    if not after or not step:
        return None
    return Law(CAP.name, (max(after),)) if step > 0 else Law(RAISE_TO.name, (min(after),))
