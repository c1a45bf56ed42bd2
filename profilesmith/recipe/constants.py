"""What rules come to that hangs on no profile: conditions, hard limits, and demands of values, answers and facts alone.

For one list of recipes with the same facts and answers, the nozzle's bore among them: whoever keeps it takes care of
that.
"""

from profilesmith.facts.facts import Facts
from profilesmith.ledger import Cause, Note
from profilesmith.recipe.chosen_tool import chosen_tool
from profilesmith.recipe.hard_limits import Limit, hard_limits
from profilesmith.recipe.operations import PRODUCT, Demand
from profilesmith.recipe.recipe import FactRef, Fixed, InputRef, Rule
from profilesmith.recipe.resolve import NotKnown
from profilesmith.vocabulary.setting import Setting

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
