"""The limits that no recipe may pass: the vocabulary's plausible range and the machine's own facts."""

from fractions import Fraction
from functools import cache
from typing import Any

from profilesmith.facts.facts import Facts
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger import Asked, Cause
from profilesmith.recipe.operations import BY_NAME, Demand
from profilesmith.vocabulary.load_vocabulary import knowledge, load_vocabulary
from profilesmith.vocabulary.setting import Setting


class Limit(NamedTuple):
    """A bound and who sets it."""

    cause: Cause
    demand: Demand


@cache
def _machine_limits() -> dict[str, list[dict[str, Any]]]:
    by_setting: dict[str, list[dict[str, Any]]] = {}
    for table in knowledge("limits.toml")["limit"]:
        for setting in table["setting"]:
            by_setting.setdefault(setting, []).append(table)
    return by_setting


@cache
def _plausible(name: str) -> Limit:
    setting = load_vocabulary().settings[name]
    return Limit(Cause("plausible range"), Demand(low=setting.low, high=setting.high))


def hard_limits(setting: Setting, facts: Facts) -> list[Limit]:
    """All hard limits of a numeric setting."""
    if not setting.is_number:
        return []
    limits = [_plausible(setting.id)]
    for table in _machine_limits().get(setting.id, ()):
        fact = facts.get(table["fact"])
        if fact is None or not isinstance(fact.value, Fraction):
            continue
        operation = BY_NAME[table["as"]]
        cause = Cause(
            kind="machine limit",
            asked=(Asked(operation.name, (fact.value,)),),
            subject=table["fact"],
            why=table["why"],
            source=table["source"],
            place=str(fact.place),
        )
        limits.append(Limit(cause, operation.demand([fact.value])))
    return limits
