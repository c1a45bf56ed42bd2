"""``{ flow = "4 mm3/s" }`` to a FlowRef: the speed at which a bead needs that flow."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from profilesmith.foundation.quantity import read_quantity
from profilesmith.foundation.toml_table import TomlTable
from profilesmith.recipe.operations import Operation
from profilesmith.recipe.read_condition import subject_kind
from profilesmith.recipe.recipe import FactRef, Fixed, FlowRef, Input, InputRef
from profilesmith.vocabulary.setting import Setting


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
