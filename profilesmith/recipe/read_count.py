"""``{ beads_for = "0.9 mm" }`` and ``{ layers_for = { input = "..." }, plus = "0.6 mm" }`` to a CountRef."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from profilesmith.foundation.quantity import read_quantity
from profilesmith.foundation.toml_table import TomlTable
from profilesmith.recipe.count import COUNTS
from profilesmith.recipe.operations import VALUE, Operation
from profilesmith.recipe.read_condition import subject_kind
from profilesmith.recipe.recipe import CountRef, FactRef, Fixed, Input, InputRef
from profilesmith.vocabulary.setting import Setting

Complain = Callable[[Operation, str, str], None]


def count_word(written: Mapping[str, Any]) -> str:
    """Which of the two words an operand is written with; "" for none."""
    word = next((word for word in COUNTS if word in written), "")
    return word if word and set(written) <= {word, "plus"} else ""


def read_count(
    table: TomlTable,
    inputs: Mapping[str, Input],
    operation: Operation,
    written: Mapping[str, Any],
    settings: Sequence[Setting],
    named: Callable[[Setting], str],
    complain: Complain,
) -> CountRef | None:
    """The operand; mistakes are complained of. named: a setting as the file has it."""
    word = count_word(written)
    for setting in settings:
        if setting.id not in COUNTS[word] or operation.reads != VALUE:
            names = ", ".join(COUNTS[word])
            complain(operation, f"{named(setting)}: {word} makes no such number.", f"It bounds {names}.")
    length = _length(table, inputs, operation, word, written[word], complain)
    plus = _length(table, inputs, operation, "plus", written["plus"], complain) if "plus" in written else None
    if length is None or ("plus" in written and plus is None):
        return None
    return CountRef(word, length, plus)


def _length(
    table: TomlTable, inputs: Mapping[str, Input], operation: Operation, key: str, written: Any, complain: Complain
) -> Fixed | InputRef | FactRef | None:
    if isinstance(written, str):
        if isinstance(read_quantity(written, "length"), str):
            complain(operation, f"{key} = {written!r} is no length.", 'Write "0.9 mm".')
            return None
        return Fixed(written)
    if isinstance(written, dict) and len(written) == 1 and next(iter(written)) in ("input", "fact"):
        word, name = next(iter(written.items()))
        kind = subject_kind(table, inputs, word, name)
        if kind is not None and (kind.kind, kind.unit_kind) != ("quantity", "length"):
            complain(operation, f"{name} is no length.", "Give a fact or input whose kind is length.")
            return None
        return None if kind is None else InputRef(name) if word == "input" else FactRef(name)
    complain(operation, f"{key} = {written!r} is no length.", 'Write "0.9 mm", { fact = } or { input = }.')
    return None
