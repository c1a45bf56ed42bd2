"""What a rule asks, in the words that pages and ``recipe show`` share: ``at most 40 mm/s``."""

from __future__ import annotations

import re
from collections.abc import Mapping

from profilesmith.recipe.operations import DIFFERENCE
from profilesmith.recipe.recipe import (
    Action,
    CountRef,
    FactRef,
    Fixed,
    FlowRef,
    Input,
    InputRef,
    Operand,
    Rule,
    SettingRef,
    parts,
)
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

# Units as a recipe may spell them on any keyboard, and as people read them.
_POWERS = ((re.compile(r"\b(m?m/s)2\b"), r"\1²"), (re.compile(r"\b(mm|cm|m)3\b"), r"\1³"))


def rule_asks(rule: Rule, inputs: Mapping[str, Input]) -> str:
    """All that a rule asks, with the defaults of the questions that it asks."""
    points = all(setting.kind == "ratio" for setting in map(load_vocabulary().settings.__getitem__, rule.settings))
    return "; ".join(_asks(action, inputs, points) for action in rule.actions)


def _asks(action: Action, inputs: Mapping[str, Input], points: bool) -> str:
    texts = [operand_words(operand, inputs) for operand in action.operands]
    if action.does.reads == DIFFERENCE:
        return _step(action, texts[0], points and isinstance(action.operands[0], Fixed))
    return action.does.words(texts, action.does.on_pages)


def _step(action: Action, text: str, points: bool) -> str:
    """A step of per cents adds points: 18 % and 8 points are 26 %."""
    down = bool(action.does.below_zero) and text.startswith("-")
    text = text[1:].lstrip() if down else text
    shown = re.sub(r" ?%$", " points", text) if points else text
    return action.does.words([shown], action.does.below_zero if down else action.does.on_pages)


def operand_words(operand: Operand, inputs: Mapping[str, Input]) -> str:
    """An operand for a person; of a question its name, and what counts when nobody answers."""
    if isinstance(operand, FlowRef):
        return f"the speed at which the bead takes {operand_words(operand.flow, inputs)}"
    if isinstance(operand, CountRef):
        length = " plus ".join(operand_words(part, inputs) for part in parts(operand))
        return f"as many {operand.what.removesuffix('_for')} as make {length}"
    if isinstance(operand, InputRef):
        item = inputs.get(operand.name)
        default = f"; else {item.kind.show(item.default)}" if item is not None and item.default is not None else ""
        return f"{operand.name} (asked{default})"
    if isinstance(operand, FactRef):
        return f"the fact {operand.name}"
    if isinstance(operand, SettingRef):
        return _powers(str(operand))
    return _powers(operand.text)


def _powers(text: str) -> str:
    for unit, shown in _POWERS:
        text = unit.sub(shown, text)
    return text
