"""Which laws explain a finding's values as well, and which further pair would tell them apart."""

from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import Literal

from profilesmith.distil.finding import SettlingPair
from profilesmith.distil.interval import Interval, roundest
from profilesmith.distil.law import Law, predict
from profilesmith.distil.sample import SampleWorld, Seen
from profilesmith.distil.weigh import WeighedLaw
from profilesmith.recipe.recipe import FactRef, FlowRef
from profilesmith.vocabulary.setting import Setting, Value

MOST_RIVALS = 4
PROBES = (Fraction(3, 4), Fraction(5, 4), Fraction(1, 2), Fraction(3, 2), Fraction(2))


def rivals_of(
    chosen: WeighedLaw, others: Iterable[WeighedLaw], seen: Sequence[Seen], world: SampleWorld
) -> tuple[Law, ...]:
    """Laws with no more exceptions and no more parameters that say something else of some value not seen yet."""
    law = chosen.law
    if law is None:
        return ()
    rivals: dict[str, Law] = {}
    for other in others:
        rival = other.law
        if (
            rival is None
            or rival == law
            or len(other.exceptions) > len(chosen.exceptions)
            or len(rival.values) > max(1, len(law.values))
        ):
            continue
        if rival.leads.name not in rivals and (rival.when != law.when or _differ(law, rival, seen, world)):
            rivals[rival.leads.name] = rival
    return tuple(rivals.values())[:MOST_RIVALS]


def _differ(law: Law, rival: Law, seen: Sequence[Seen], world: SampleWorld) -> bool:
    if law.operand is not None or rival.operand is not None or law.aim is not None or rival.aim is not None:
        return True
    setting = world.vocabulary.settings[seen[0].setting]
    return any(
        predict((law,), probe, world) != predict((rival,), probe, world) for probe in _probes(law, setting, seen, world)
    )


def _probes(law: Law, setting: Setting, seen: Sequence[Seen], world: SampleWorld) -> list[Seen]:
    """Invented bases around a law's own number and beyond all that was seen, of a pair that meets its condition."""
    concerned = [item for item in seen if not law.when or world.resolvers[item.pair].condition(law.when) is True]
    numbers = [item for item in concerned if isinstance(item.before, Fraction)]
    if not numbers or setting.low is None or setting.high is None:
        return []
    befores = [item.before for item in numbers if isinstance(item.before, Fraction)]
    centres = [value for value in law.values if isinstance(value, Fraction)] or [
        item.after for item in numbers if isinstance(item.after, Fraction)
    ]
    wanted = [centre * share for centre in centres for share in PROBES] + [
        min(befores) * PROBES[0],
        max(befores) * PROBES[1],
    ]
    if setting.kind in ("temperature", "angle"):
        wanted = [end + step for end in (*centres, min(befores), max(befores)) for step in (-10, 10, -20, 20)]
    rounded = dict.fromkeys(
        roundest(Interval(value * Fraction(19, 20), value * Fraction(21, 20)), value) for value in wanted
    )
    whole = setting.kind == "count"
    inside = [
        value for value in rounded if setting.low <= value <= setting.high and (not whole or value.denominator == 1)
    ]
    return [numbers[0]._replace(before=value, after=value) for value in inside]


def settling_pair(
    law: Law, rivals: Sequence[Law], setting: Setting, seen: Sequence[Seen], world: SampleWorld
) -> SettlingPair:
    """The base of which the laws make the most different things."""
    if isinstance(law.operand, FactRef | FlowRef):
        return SettlingPair(law.operand)
    best: tuple[int, Seen | None, dict[str, Value | None]] = (1, None, {})
    for probe in _probes(law, setting, seen, world):
        results = {item.leads.name: predict((item,), probe, world) for item in (law, *rivals)}
        if len(set(results.values())) > best[0]:
            best = (len(set(results.values())), probe, results)
    if best[1] is None:
        return SettlingPair()
    before = best[1].before
    assert isinstance(before, Fraction)
    return SettlingPair(None, before, *_side(law, before, seen), tuple(best[2].items()))


def _side(law: Law, before: Fraction, seen: Sequence[Seen]) -> tuple[Literal["below", "above", ""], Fraction]:
    """On which side of what a value lies: of the law's own number, else of all that was seen."""
    values = [value for value in law.values if isinstance(value, Fraction)]
    one = law.does.operands == 1 and bool(values) and law.aim is None
    if one and "high" in law.does.asks and before < values[0]:
        return "below", values[0]
    if one and "low" in law.does.asks and before > values[0]:
        return "above", values[0]
    befores = [item.before for item in seen if isinstance(item.before, Fraction)]
    if befores and before > max(befores):
        return "above", max(befores)
    return ("below", min(befores)) if befores and before < min(befores) else ("", Fraction(0))
