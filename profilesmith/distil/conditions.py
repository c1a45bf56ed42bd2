"""Laws that hold only where a fact is so."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from profilesmith.distil.fit import fits
from profilesmith.distil.interval import Interval, roundest
from profilesmith.distil.law import DECIMALS, Law
from profilesmith.distil.sample import SampleWorld, Seen
from profilesmith.facts.facts import FactKind, FactValue, fact_kinds
from profilesmith.foundation.comparison import Comparison
from profilesmith.foundation.number import decimal_text
from profilesmith.foundation.quantity import CANONICAL
from profilesmith.recipe.recipe import Clause
from profilesmith.vocabulary.setting import Setting


def clauses(seen: tuple[Seen, ...], world: SampleWorld) -> list[Clause]:
    """Conditions on facts that tell some of these pairs from others."""
    samples = [world.samples[number] for number in dict.fromkeys(item.pair for item in seen)]
    names = dict.fromkeys(name for sample in samples for name in sample.facts)
    clauses: list[Clause] = []
    for name in names:
        facts = [sample.facts.get(name) for sample in samples]
        values = list(dict.fromkeys(fact.value for fact in facts if fact is not None))
        if len(values) > 1:
            clauses += _of_fact(fact_kinds()[name], values)
    return clauses


def _of_fact(kind: FactKind, values: Sequence[FactValue]) -> list[Clause]:
    if kind.kind == "choice":
        return [Clause(kind.name, (str(value),)) for value in values]
    numbers = sorted(value for value in values if isinstance(value, Fraction))
    if kind.kind != "quantity" or len(numbers) < 2:
        return []
    clauses = []
    for low, high in pairwise(numbers):
        limit = roundest(Interval(low, high), (low + high) / 2)
        limit = (low + high) / 2 if limit in (low, high) else limit
        text = f"{decimal_text(limit, DECIMALS)} {CANONICAL[kind.unit_kind]}".strip()
        clauses += [Clause(kind.name, comparison=Comparison(sign, text)) for sign in (">", "<")]
    return clauses


def conditional_laws(setting: Setting, seen: tuple[Seen, ...], world: SampleWorld) -> Iterator[Law]:
    """The best laws of the pairs that a condition picks, held to by two changed pairs at least."""
    for clause in clauses(seen, world):
        inside = tuple(item for item in seen if world.resolvers[item.pair].condition((clause,)) is True)
        changed = {item.pair for item in inside if item.touched}
        if len(changed) > 1 and len(inside) < len(seen):
            yield from (law._replace(when=(clause,)) for law in fits(setting, inside, world))
