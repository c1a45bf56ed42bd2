"""What a rule says in tables of its own: ``when = { ... }`` to clauses (which fact or input it speaks of, and what
that must be), and ``{ flow = "4 mm3/s" }`` to a FlowRef, the speed at which a bead needs that flow.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from profilesmith.facts.facts import SEE_FACTS, FactKind, fact_kinds
from profilesmith.foundation.comparison import read_comparison
from profilesmith.foundation.problem import did_you_mean
from profilesmith.foundation.quantity import read_quantity
from profilesmith.foundation.toml_table import TomlTable
from profilesmith.recipe.operations import Operation
from profilesmith.recipe.recipe import Clause, FactRef, Fixed, FlowRef, Input, InputRef
from profilesmith.vocabulary.setting import Setting


def subject_kind(table: TomlTable, inputs: Mapping[str, Input], word: str, name: Any) -> FactKind | None:
    """The kind of an input or a fact; None, with a mistake in the file's problems, where there is no such one.

    word: ``input`` or ``fact``.
    """
    known: Mapping[str, Any] = inputs if word == "input" else fact_kinds()
    if not isinstance(name, str) or name not in known:
        hint = did_you_mean(str(name), known, f"Add [inputs.{name}]." if word == "input" else SEE_FACTS)
        table.complain(f"unknown-{word}", f"There is no {word} {name!r}.", "", hint)
        return None
    return inputs[name].kind if word == "input" else fact_kinds()[name]


def read_conditions(table: TomlTable, inputs: Mapping[str, Input]) -> tuple[Clause, ...]:
    """The clauses of a rule; mistakes go to the file's problems. inputs: the recipe's own."""
    clauses = (_clause(table, inputs, subject, written) for subject, written in table.table("when").entries())
    return tuple(clause for clause in clauses if clause is not None)


def _clause(table: TomlTable, inputs: Mapping[str, Input], subject: str, written: Any) -> Clause | None:
    asked = subject.startswith("input.")
    kind = subject_kind(table, inputs, "input" if asked else "fact", subject.removeprefix("input."))
    if isinstance(written, dict):
        return _against(table, inputs, subject, written, kind)
    texts = written if isinstance(written, list) else [written]
    if not texts or not all(isinstance(text, str) for text in texts):
        table.complain("when", f"when {subject}: it must be a text or some texts.", "when", 'Write "remote".')
        return None
    if kind is not None and kind.kind in ("window", "hardness"):
        hint = "Use a fact that is a choice, a text or a single quantity."
        table.complain("when", f"when {subject}: a {kind.kind} cannot be held against a text.", "when", hint)
        return None
    if kind is not None and kind.unit_kind:
        return _comparison(table, subject, texts, kind)
    if kind is not None and kind.values and not set(texts) <= set(kind.values):
        hint = f"It is one of {', '.join(kind.values)}."
        table.complain("when", f"when {subject}: {', '.join(texts)!r} never happens.", "when", hint)
    comparison = read_comparison(texts[0]) if len(texts) == 1 else None
    return Clause(subject, tuple(texts) if not comparison else (), comparison)


def _against(
    table: TomlTable, inputs: Mapping[str, Input], subject: str, written: dict[str, Any], kind: FactKind | None
) -> Clause | None:
    """``{ input = "..." }`` or ``{ fact = "..." }``: another answer or fact of the kind, which it must equal."""
    word = next(iter(written), "")
    if len(written) != 1 or word not in ("input", "fact"):
        hint = 'Write { input = "..." }, { fact = "..." } or a text.'
        table.complain("when", f"when {subject}: {sorted(written)} is nothing to hold it against.", "when", hint)
        return None
    other = subject_kind(table, inputs, word, written[word])
    if kind is None or other is None:
        return None
    if kind.kind in ("window", "hardness"):
        hint = "Use a fact that is a choice, a text or a single quantity."
        table.complain("when", f"when {subject}: a {kind.kind} cannot be held against another.", "when", hint)
        return None
    if (kind.kind, kind.unit_kind) != (other.kind, other.unit_kind):
        hint = "Both must be of one kind."
        table.complain("when", f"when {subject}: {written[word]} is another kind of thing.", "when", hint)
        return None
    return Clause(subject, against=InputRef(written[word]) if word == "input" else FactRef(written[word]))


def _comparison(table: TomlTable, subject: str, texts: list[str], kind: FactKind) -> Clause | None:
    """What a quantity is held against."""
    if len(texts) > 1:
        hint = 'Write one comparison, such as "> 10 mm".'
        table.complain("when", f"when {subject}: a list of quantities is never met.", "when", hint)
        return None
    comparison = read_comparison(texts[0]) or read_comparison(f"= {texts[0]}")
    if comparison is None or isinstance(read_quantity(comparison.operand, kind.unit_kind), str):
        message = f"when {subject}: {texts[0]!r} is no {kind.unit_kind}."
        table.complain("when", message, "when", f'Write "> 10 ..." with a unit of {kind.unit_kind}.')
        return None
    return Clause(subject, (), comparison)


def read_flow(
    table: TomlTable,
    inputs: Mapping[str, Input],
    operation: Operation,
    written: Any,
    settings: Sequence[Setting],
    word: Callable[[Setting], str],
    complain: Callable[[Operation, str, str], None],
) -> FlowRef | None:
    """The operand; mistakes are complained of. word: a setting as the file has it."""
    for setting in settings:
        if setting.kind != "speed":
            message = f"{word(setting)}: a flow bounds speeds, not a {setting.kind}."
            complain(operation, message, "Use it on printing speeds.")
    if isinstance(written, str):
        if isinstance(read_quantity(written, "flow"), str):
            complain(operation, f"{written!r} is not a flow.", 'Write "4 mm3/s".')
        return FlowRef(Fixed(written))
    if isinstance(written, dict) and len(written) == 1 and next(iter(written)) in ("input", "fact"):
        kin, name = next(iter(written.items()))
        kind = subject_kind(table, inputs, kin, name)
        if kind is not None and (kind.kind, kind.unit_kind) != ("quantity", "flow"):
            complain(operation, f"{name} is not a flow.", "Give a fact or input whose kind is flow.")
        return None if kind is None else FlowRef(InputRef(name) if kin == "input" else FactRef(name))
    complain(operation, f"flow = {written!r} is not a flow.", 'Write "4 mm3/s", { fact = } or { input = }.')
    return None
