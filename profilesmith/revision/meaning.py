"""Parts of a recipe as plain data that is equal where it means the same: ``40 mm/s`` and ``2400 mm/min`` are one
bound.
"""

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from profilesmith.facts.facts import fact_kinds
from profilesmith.foundation.quantity import read_quantity
from profilesmith.recipe.operations import DIFFERENCE, RATIO
from profilesmith.recipe.recipe import Action, Clause, CountRef, Fixed, FlowRef, Input, Recipe, Rule, SettingRef, parts
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

Data = dict[str, Any]


def bounds_of(rule: Rule) -> Data:
    """What a rule asks: its operations with their operands."""
    return {
        action.operation: [_operand(operand, action, rule) for operand in action.operands] for action in rule.actions
    }


def condition_of(rule: Rule, inputs: Mapping[str, Input]) -> Data:
    """What must hold, whatever the order in which it is written."""
    return {clause.subject: _clause(clause, inputs) for clause in rule.when}


def rule_data(rule: Rule, inputs: Mapping[str, Input]) -> Data:
    """All of a rule but its number."""
    return {
        "settings": sorted(rule.settings),
        "bound": bounds_of(rule),
        "condition": condition_of(rule, inputs),
        "why": rule.why,
        "source": rule.source,
    }


def recipe_data(recipe: Recipe) -> Data:
    """All of a recipe but its rules and its version."""
    head = {
        "title": recipe.title,
        "from": recipe.source_material,
        "to": recipe.target_material,
        "licence": recipe.licence,
        "authors": sorted(recipe.authors),
        "cautions": sorted(recipe.cautions),
        "goes_with": sorted(recipe.goes_with),
    }
    examples = [
        {key: dict(value) for key, value in item._asdict().items() if key != "place"} for item in recipe.examples
    ]
    return {"head": head, "inputs": {name: _input(item) for name, item in recipe.inputs.items()}, "examples": examples}


def _input(item: Input) -> Data:
    default = "" if item.default is None else item.kind.show(item.default)
    kind = " ".join(part for part in (item.kind.unit_kind, item.kind.kind, *item.kind.values) if part)
    return {"kind": kind, "fact": item.fact, "default": default, "ask": item.ask}


def _operand(operand: Any, action: Action, rule: Rule) -> Any:
    """An operand as data; of a kind that is not known here every part counts as it is written."""
    if isinstance(operand, Fixed):
        return {"value": _quantity(operand.text, action, rule)}
    if isinstance(operand, SettingRef):
        kind = load_vocabulary().settings[operand.setting].kind
        plus = read_quantity(operand.plus, kind, difference=True) if operand.plus else Fraction(0)
        return {"of": operand.setting, "times": str(operand.times), "plus": str(plus)}
    if isinstance(operand, FlowRef) and isinstance(operand.flow, Fixed):
        return {"flow": str(read_quantity(operand.flow.text, "flow"))}
    if isinstance(operand, CountRef):
        lengths = [_length(part) for part in parts(operand)]
        return {operand.what: lengths}
    fields = {
        name: _operand(part, action, rule) if hasattr(part, "_fields") else str(part)
        for name, part in operand._asdict().items()
    }
    return {type(operand).__name__: fields}


def _length(part: Any) -> Any:
    return str(read_quantity(part.text, "length")) if isinstance(part, Fixed) else {type(part).__name__: part.name}


def _quantity(text: str, action: Action, rule: Rule) -> str:
    """The canonical number of a text where all settings of the rule read it alike, else the text."""
    kinds = {load_vocabulary().settings[name].kind for name in rule.settings}
    kind = "ratio" if action.does.reads == RATIO else next(iter(kinds)) if len(kinds) == 1 else ""
    if action.does.products or kind in ("", "switch", "choice"):
        return text
    value = read_quantity(text, kind, difference=action.does.reads == DIFFERENCE)
    return str(value) if isinstance(value, Fraction) else text


def _clause(clause: Clause, inputs: Mapping[str, Input]) -> Any:
    if clause.against is not None:
        return {type(clause.against).__name__: clause.against.name}
    if clause.comparison is None:
        return sorted(clause.words)
    name = clause.subject.removeprefix("input.")
    asked = inputs.get(name) if name != clause.subject else None
    kind = asked.kind if asked is not None else fact_kinds().get(clause.subject)
    limit = read_quantity(clause.comparison.operand, kind.unit_kind) if kind is not None and kind.unit_kind else None
    return [clause.comparison.sign, str(limit) if isinstance(limit, Fraction) else clause.comparison.operand]


def direction(old: Rule, new: Rule) -> str:
    """``tighter`` or ``looser``, where one operation with plain numbers tells it."""
    one, other = (rule.actions[0] if len(rule.actions) == 1 else None for rule in (old, new))
    if one is None or other is None or one.operation != other.operation or not one.does.is_bound or one.does.is_exact:
        return ""
    if not all(isinstance(operand, Fixed) for operand in (*one.operands, *other.operands)) or one.does.products:
        return ""
    was, is_now = ([part["value"] for part in bounds_of(rule)[one.operation]] for rule in (old, new))
    try:
        steps = [Fraction(after) - Fraction(before) for before, after in zip(was, is_now, strict=True)]
    except ValueError:
        return ""
    if one.does.asks == {"high"}:
        inwards = [-steps[0]]
    else:
        inwards = [steps[0], -steps[-1]] if one.does.operands > 1 else [steps[0]]
    if all(step >= 0 for step in inwards):
        return "tighter"
    return "looser" if all(step <= 0 for step in inwards) else ""
