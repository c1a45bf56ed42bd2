"""A rule that speaks of one setting, and what it demands there."""

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger import Asked, Cause
from profilesmith.profile.profile import Profile
from profilesmith.recipe.operations import Demand
from profilesmith.recipe.recipe import Rule
from profilesmith.recipe.resolve import NotKnown, Resolver
from profilesmith.vocabulary.setting import Setting

Rank = tuple[int, int]
"""The recipe's index and the rule's number: where a row belongs."""


class RuleOnSetting(NamedTuple):
    """A rule that speaks of the setting. recipe: its index in the order of recipes."""

    recipe: int
    rule: Rule
    resolver: Resolver

    @property
    def rank(self) -> Rank:
        return self.recipe, self.rule.number

    def cause(self, asked: tuple[Asked, ...] = ()) -> Cause:
        """The rule as ledgers name it. asked: with what it came to; () for what the recipe says."""
        recipe, rule = self.resolver.recipe, self.rule
        return Cause(
            kind="rule",
            recipe=recipe.name,
            version=recipe.version,
            rule=rule.number,
            asked=asked or tuple(action.asked() for action in rule.actions),
            why=rule.why,
            source=rule.source,
        )

    def demand(self, setting: Setting, tool: int, derived: Profile) -> "Resolved | NotKnown":
        """All actions of the rule as one demand, or what is missing to know it."""
        demand, asked = Demand(), []
        for action in self.rule.actions:
            values = self.resolver.values(action, setting.id, tool, derived)
            if isinstance(values, NotKnown):
                return values
            demand = demand.merged(action.does.demand(values))
            asked.append(action.asked(values))
        return Resolved(self, demand, tuple(asked))


class Resolved(NamedTuple):
    """A rule on a setting with its demand. asked: as the ledger has it, with values."""

    ruling: RuleOnSetting
    demand: Demand
    asked: tuple[Asked, ...]

    @property
    def cause(self) -> Cause:
        return self.ruling.cause(self.asked)
