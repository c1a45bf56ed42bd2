"""Findings as the text of a recipe file: every rule with its evidence, its rivals and what would settle it as comments."""

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from typing import NamedTuple

from profilesmith.distil.examples import PairExample
from profilesmith.distil.law import Law
from profilesmith.foundation import toml_text
from profilesmith.foundation.number import decimal_text
from profilesmith.foundation.toml_text import harmless
from profilesmith.recipe.operations import DIFFERENCE
from profilesmith.recipe.recipe import Action, FactRef, Fixed, FlowRef, Operand, Rule, SettingRef
from profilesmith.vocabulary.setting import Vocabulary

CAUTIONS = (
    "Distilled from settings alone: nobody has judged these rules yet. Print a small test piece first and stay with it.",
    "Hot nozzles, hot beds and fumes can hurt. Keep to the printer's own instructions, the spool's label and local fire rules.",
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


def quoted(text: str) -> str:
    """A TOML string of what may hold names of files: those are strangers' texts."""
    return toml_text.quoted(harmless(text))


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
        f"name = {quoted(head.name)}",
        'version = "1.0.0"',
        f"title = {quoted(head.title)}",
        f"from = {quoted(head.source)}",
        f"to = {quoted(head.target)}",
        f"licence = {quoted(head.licence)}  # the keeper's choice",
        "cautions = [",
        *(f"  {quoted(text)}," for text in CAUTIONS),
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
    lines = ["[[rule]]", f"setting = {_names(rule.named)}"]
    if excluded:
        lines.append(f"except = [{', '.join(map(quoted, excluded))}]")
    lines += [f"{action.operation} = {operands_text(action)}" for action in rule.actions]
    if rule.when:
        clauses = ", ".join(
            f"{quoted(clause.subject)} = {quoted(str(clause.comparison) if clause.comparison else clause.words[0])}"
            for clause in rule.when
        )
        lines.append(f"when = {{ {clauses} }}")
    return [*lines, f"why = {quoted(rule.why)}", f"source = {quoted(rule.source)}"]


def _names(names: Sequence[str]) -> str:
    return quoted(names[0]) if len(names) == 1 else f"[{', '.join(map(quoted, names))}]"


def operands_text(action: Action) -> str:
    """The operands of an action as TOML."""
    texts = [_operand(operand) for operand in action.operands]
    return texts[0] if len(texts) == 1 else f"[{', '.join(texts)}]"


def _operand(operand: Operand) -> str:
    if isinstance(operand, Fixed):
        return quoted(operand.text)
    if isinstance(operand, SettingRef):
        return f"{{ of = {quoted(operand.setting)}, times = {decimal_text(operand.times, 6)} }}"
    if isinstance(operand, FlowRef):
        return f"{{ flow = {{ fact = {quoted(str(operand.flow))} }} }}"
    assert isinstance(operand, FactRef)  # distil learns no other
    return f"{{ fact = {quoted(operand.name)} }}"


def law_text(law: Law, setting_id: str, vocabulary: Vocabulary) -> str:
    """A law as it would stand in a recipe: ``cap = "40 mm/s"``. A shift in per cent means points, and that is said."""
    setting = vocabulary.settings[setting_id]
    action = law.actions(setting)[0]
    points = (
        f" ({decimal_text(law.values[0], 6)} points)"
        if law.does.reads == DIFFERENCE and setting.kind == "ratio" and isinstance(law.values[0], Fraction)
        else ""
    )
    when = f", when {' and '.join(map(str, law.when))}" if law.when else ""
    return f"{law.operation} = {operands_text(action)}{points}{when}"


def _example(example: PairExample, name: str) -> list[str]:
    lines = comment(f"The pair {name}.")
    if example.left_out:
        lines += comment(f"Left out, since this pair departs from the recipe there: {', '.join(example.left_out)}.")
    lines += ["[[example]]", f"given = {_table(example.given)}"]
    if example.facts:
        lines.append(f"facts = {_table(example.facts)}")
    return [*lines, f"expect = {_table(example.expect)}"]


def _table(texts: Mapping[str, str | list[str]]) -> str:
    items = (
        f"{quoted(name)} = {quoted(text) if isinstance(text, str) else '[' + ', '.join(map(quoted, text)) + ']'}"
        for name, text in texts.items()
    )
    return f"{{ {', '.join(items)} }}"
