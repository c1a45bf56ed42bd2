"""Findings as the text of a recipe file: every rule with its evidence, its rivals and what would settle it as
comments.
"""

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from typing import Any

from profilesmith.distil.examples import PairExample
from profilesmith.distil.law import Law
from profilesmith.foundation import toml_text
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.number import decimal_text
from profilesmith.foundation.toml_text import harmless
from profilesmith.foundation.toml_values import pair_lines, value_text
from profilesmith.recipe.operations import DIFFERENCE
from profilesmith.recipe.recipe import Action, FactRef, Fixed, FlowRef, Operand, Rule, SettingRef
from profilesmith.vocabulary.setting import Vocabulary

CAUTIONS = (
    (
        "Distilled from settings alone: nobody has judged these rules yet. Print a small test "
        "piece first and stay with it."
    ),
    (
        "Hot nozzles, hot beds and fumes can hurt. Keep to the printer's own instructions, the "
        "spool's label and local fire rules."
    ),
)


class Head(NamedTuple):
    """What stands at the top of the file."""

    name: str
    title: str
    licence: str
    source: str = "the base profiles of the pairs"
    target: str = "their tuned versions"


class WrittenRule(NamedTuple):
    """A rule, the members of its group that it leaves out, and comment sentences above it."""

    rule: Rule
    excluded: tuple[str, ...]
    remarks: tuple[str, ...]


def _pairs(table: Mapping[str, Any]) -> list[str]:
    """Lines of a table. Its texts may hold names of files: those are strangers' texts."""
    return pair_lines({name: _shown(value) for name, value in table.items()})


def _shown(value: Any) -> Any:
    if isinstance(value, str):
        return harmless(value)
    if isinstance(value, Mapping):
        return {harmless(name): _shown(inner) for name, inner in value.items()}
    return [_shown(inner) for inner in value] if isinstance(value, Sequence) else value


def comment(text: str) -> list[str]:
    """A remark as comment lines."""
    return toml_text.comment_lines(text, hanging="#  ")


def recipe_text(
    head: Head,
    rules: Sequence[WrittenRule],
    examples: Iterable[PairExample],
    names: Sequence[str],
    notes: Sequence[str],
) -> str:
    """A whole recipe. names: of the pairs; notes: comments at the end."""
    lines = [
        *comment(f"{head.title}. Written by 'profilesmith distil'; reasons are for the keeper to add."),
        "format = 1",
        "",
        "[recipe]",
        *_pairs({"name": head.name, "version": "1.0.0", "title": head.title, "from": head.source, "to": head.target}),
        *(f"{line}  # the keeper's choice" for line in _pairs({"licence": head.licence})),
        "cautions = [",
        *(f"  {value_text(text)}," for text in CAUTIONS),
        "]",
    ]
    for item in rules:
        lines += ["", *(line for text in item.remarks for line in comment(text)), *_rule(item.rule, item.excluded)]
    for example in examples:
        lines += ["", *_example(example, names[example.pair])]
    if notes:
        lines += ["", *(line for text in notes for line in comment(text))]
    return "\n".join(lines) + "\n"


def _rule(rule: Rule, excluded: tuple[str, ...]) -> list[str]:
    table: dict[str, Any] = {"setting": rule.named[0] if len(rule.named) == 1 else rule.named}
    if excluded:
        table["except"] = excluded
    table |= {action.operation: _operands(action) for action in rule.actions}
    if rule.when:
        clauses = {
            clause.subject: str(clause.comparison) if clause.comparison else clause.words[0] for clause in rule.when
        }
        table["when"] = clauses
    return ["[[rule]]", *_pairs({**table, "why": rule.why, "source": rule.source})]


def _operands(action: Action) -> Any:
    """The operands of an action as a file holds them."""
    operands = [_operand(operand) for operand in action.operands]
    return operands[0] if len(operands) == 1 else operands


def _operand(operand: Operand) -> Any:
    if isinstance(operand, Fixed):
        return operand.text
    if isinstance(operand, SettingRef):
        times = {} if operand.times == 1 else {"times": float(decimal_text(operand.times, 6))}
        return {"of": operand.setting, **times, **({"plus": operand.plus} if operand.plus else {})}
    if isinstance(operand, FlowRef):
        return {"flow": {"fact": str(operand.flow)}}
    assert isinstance(operand, FactRef)  # distil learns no other
    return {"fact": operand.name}


def law_text(law: Law, setting_id: str, vocabulary: Vocabulary) -> str:
    """A law as it would stand in a recipe: ``cap = "40 mm/s"``. A shift in per cent means points, and that is said."""
    setting = vocabulary.settings[setting_id]
    actions = law.actions(setting)
    points = (
        f" ({decimal_text(law.values[0], 6)} points)"
        if law.does.reads == DIFFERENCE and setting.kind == "ratio" and isinstance(law.values[0], Fraction)
        else ""
    )
    when = f", when {' and '.join(map(str, law.when))}" if law.when else ""
    actions_text = ", ".join(_pairs({action.operation: _operands(action) for action in actions}))
    return f"{actions_text}{points}{when}"


def _example(example: PairExample, name: str) -> list[str]:
    lines = comment(f"The pair {name}.")
    if example.left_out:
        lines += comment(
            f"Left out, since this pair has other values there than the recipe gives: {', '.join(example.left_out)}."
        )
    table = {"given": example.given, "facts": example.facts, "expect": example.expect}
    return [*lines, "[[example]]", *_pairs({name: part for name, part in table.items() if part or name != "facts"})]
