"""A rule that speaks of one setting, and what it demands there."""

from typing import NamedTuple

from profilesmith.ledger import Cause
from profilesmith.profile.profile import Profile
from profilesmith.recipe.operations import VALUE, Demand
from profilesmith.recipe.recipe import Action, Rule
from profilesmith.recipe.resolve import NotKnown, Resolver
from profilesmith.vocabulary.setting import Setting, Value

Rank = tuple[int, int]
"""The recipe's index and the rule's number: where a row belongs."""


class Pair(NamedTuple):
    """A rule that speaks of the setting. recipe: its index in the order of recipes."""

    recipe: int
    rule: Rule
    resolver: Resolver

    @property
    def rank(self) -> Rank:
        return self.recipe, self.rule.number

    def cause(self, demand: str = "") -> Cause:
        """The rule as ledgers name it. demand: in resolved words; "" for the recipe's own."""
        recipe, rule = self.resolver.recipe, self.rule
        return Cause(
            recipe=recipe.name,
            version=recipe.version,
            rule=rule.number,
            demand=demand or rule.demand(),
            why=rule.why,
            source=rule.source,
            place=str(rule.place),
        )

    def demand(self, setting: Setting, tool: int, derived: Profile) -> "Resolved | NotKnown":
        """All actions of the rule as one demand, or what is missing to know it."""
        demand, words = Demand(), []
        for action in self.rule.actions:
            values = self.resolver.values(action, setting.id, tool, derived)
            if isinstance(values, NotKnown):
                return values
            demand = demand.merged(action.does.demand(values))
            words.append(_words(setting, action, values))
        return Resolved(self, demand, ", ".join(words))


class Resolved(NamedTuple):
    """A pair with its demand. words: such as ``at most 40 mm/s``."""

    pair: Pair
    demand: Demand
    words: str

    def __str__(self) -> str:
        return f"{self.pair.cause()} ({self.words})"


def _words(setting: Setting, action: Action, values: list[Value]) -> str:
    shown = map(setting.show, values) if action.does.reads == VALUE else map(str, action.operands)
    return action.does.words(list(shown))
