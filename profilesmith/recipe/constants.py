"""What rules come to that hangs on no profile: conditions, demands of values, answers and facts alone, and the limits
that no recipe may pass: the vocabulary's plausible range and the machine's own facts.

For one list of recipes with the same facts and answers, the nozzle's bore among them: whoever keeps it takes care
of that.
"""

from fractions import Fraction
from functools import cache
from typing import Any

from profilesmith.facts.facts import Facts
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger import Asked, Cause, Note
from profilesmith.recipe.operations import BY_NAME, PRODUCT, Demand
from profilesmith.recipe.recipe import FactRef, Fixed, InputRef, Rule
from profilesmith.recipe.resolve import NotKnown
from profilesmith.recipe.tool import chosen_tool
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


Rank = tuple[int, int]
"""The recipe's index and the rule's number: where a row belongs."""


class Constants:
    """Each found once, by the rule's rank and the setting. tool: the one that the facts name, from 0.

    causes: rules as ledgers name them, without what they come to; not_so: what would have to be so for them to apply.
    """

    def __init__(self, facts: Facts) -> None:
        self.facts, self.tool = facts, chosen_tool(facts)
        self.conditions: dict[Rank, bool | NotKnown] = {}
        self.causes: dict[Rank, Cause] = {}
        self.not_so: dict[Rank, tuple[Note, ...]] = {}
        self.demands: dict[tuple[Rank, str], tuple[Demand, Cause] | NotKnown] = {}
        self._limits: dict[str, tuple[Limit, ...]] = {}

    def limits(self, setting: Setting) -> tuple[Limit, ...]:
        """The hard limits of a setting."""
        if setting.id not in self._limits:
            self._limits[setting.id] = tuple(hard_limits(setting, self.facts))
        return self._limits[setting.id]


def is_constant(rule: Rule) -> bool:
    """Whether what a rule demands of a setting is the same in every profile."""
    return all(
        isinstance(operand, InputRef | FactRef) or (isinstance(operand, Fixed) and action.does.reads != PRODUCT)
        for action in rule.actions
        for operand in action.operands
    )
