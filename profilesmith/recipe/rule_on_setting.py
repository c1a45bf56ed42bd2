"""A rule that speaks of one setting, and what it demands there."""

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger import Asked, Cause, Note
from profilesmith.profile.profile import Profile
from profilesmith.recipe.constants import Constants, Rank, is_constant
from profilesmith.recipe.operations import Demand
from profilesmith.recipe.recipe import Rule
from profilesmith.recipe.resolve import NotKnown, Resolver
from profilesmith.vocabulary.setting import Setting


class RuleOnSetting(NamedTuple):
    """A rule that speaks of the setting. rank: with its recipe's index in the order of recipes."""

    rank: Rank
    rule: Rule
    resolver: Resolver
    constants: Constants

    @property
    def cause(self) -> Cause:
        """The rule as ledgers name it, with what the recipe says."""
        known = self.constants.causes
        if self.rank not in known:
            known[self.rank] = self._cause()
        return known[self.rank]

    def _cause(self) -> Cause:
        recipe, rule = self.resolver.recipe, self.rule
        return Cause(
            kind="rule",
            recipe=recipe.name,
            version=recipe.version,
            rule=rule.number,
            asked=tuple(action.asked() for action in rule.actions),
            why=rule.why,
            source=rule.source,
        )

    @property
    def not_so(self) -> tuple[Note, ...]:
        """What would have to be so for it to apply."""
        known = self.constants.not_so
        if self.rank not in known:
            conditions = tuple(clause.condition() for clause in self.rule.when)
            known[self.rank] = (Note("condition", conditions=conditions),)
        return known[self.rank]

    def applies(self) -> bool | NotKnown:
        """The answer to the rule's condition."""
        known = self.constants.conditions
        if self.rank not in known:
            known[self.rank] = self.resolver.condition(self.rule.when)
        return known[self.rank]

    def demand(self, setting: Setting, tool: int, derived: Profile) -> "Resolved | NotKnown":
        """All actions of the rule as one demand, or what is missing to know it."""
        place = (self.rank, setting.id)
        known = self.constants.demands.get(place)
        if known is None:
            known = self._demand(setting, tool, derived)
            if is_constant(self.rule):
                self.constants.demands[place] = known
        return known if isinstance(known, NotKnown) else Resolved(self, *known)

    def _demand(self, setting: Setting, tool: int, derived: Profile) -> tuple[Demand, Cause] | NotKnown:
        demand, asked = Demand(), list[Asked]()
        for action, plain in zip(self.rule.actions, self.cause.asked, strict=True):
            values = self.resolver.values(action, setting.id, tool, derived)
            if isinstance(values, NotKnown):
                return values
            made = action.does.demand(values)
            demand = demand.merged(made) if asked else made
            asked.append(Asked(plain.operation, tuple(values), plain.operands))
        return demand, self.cause.asking(tuple(asked))


class Resolved(NamedTuple):
    """A ruling with its demand. cause: as the ledger has it, with values."""

    ruling: RuleOnSetting
    demand: Demand
    cause: Cause

    @property
    def asked(self) -> tuple[Asked, ...]:
        return self.cause.asked
