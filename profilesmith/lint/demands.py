"""What a recipe's rules ask of each setting as far as the recipe alone tells: no facts, no base, answers by their
defaults.
"""

from collections.abc import Iterator
from fractions import Fraction

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.recipe.operations import VALUE, Demand
from profilesmith.recipe.recipe import Action, Fixed, InputRef, Operand, Recipe, Rule
from profilesmith.vocabulary.setting import Setting, Unreadable, Value, Vocabulary, read_value


class ActionOnSetting(NamedTuple):
    """One action of a rule on one setting. fixed: whether the rule writes the value itself, not an input."""

    rule: Rule
    action: Action
    setting: Setting
    demand: Demand
    fixed: bool

    def __str__(self) -> str:
        return f"rule {self.rule.number} ({self.action})"


def asked(recipe: Recipe, vocabulary: Vocabulary) -> Iterator[ActionOnSetting]:
    """Every bound and aim whose values the recipe knows."""
    for rule in recipe.rules:
        for action in rule.actions:
            if action.does.reads != VALUE:
                continue
            fixed = all(isinstance(operand, Fixed) for operand in action.operands)
            for name in rule.settings:
                setting = vocabulary.settings[name]
                values = [value for operand in action.operands for value in _values(operand, setting, recipe)]
                if len(values) == action.does.operands:
                    yield ActionOnSetting(rule, action, setting, action.does.demand(values), fixed)


def _values(operand: Operand, setting: Setting, recipe: Recipe) -> tuple[Value, ...]:
    """An operand's values, two for a window; () where only a base or a fact tells."""
    if isinstance(operand, Fixed):
        value = read_value(setting, operand.text)
        return () if isinstance(value, Unreadable) else (value,)
    default = recipe.inputs[operand.name].default if isinstance(operand, InputRef) else None
    if isinstance(default, tuple) and all(isinstance(end, Fraction) for end in default):
        return tuple(end for end in default if isinstance(end, Fraction))
    return (default,) if isinstance(default, Fraction | str) else ()
