"""One ``[[rule]]`` table to a Rule."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import combinations
from typing import Any

from profilesmith.facts.facts import FactKind
from profilesmith.foundation.number import read_number
from profilesmith.foundation.problem import did_you_mean
from profilesmith.foundation.quantity import read_quantity
from profilesmith.foundation.toml_table import TomlTable
from profilesmith.recipe.operations import BY_NAME, DIFFERENCE, RATIO, WINDOW, Operation
from profilesmith.recipe.operations.operation import why_unreadable
from profilesmith.recipe.read_condition import read_conditions, read_flow, subject_kind
from profilesmith.recipe.recipe import (
    Action,
    FactRef,
    Fixed,
    Input,
    InputRef,
    Operand,
    Rule,
    SettingRef,
)
from profilesmith.recipe.tool import BORE, FITTED
from profilesmith.vocabulary.setting import SEE_SETTINGS, Setting, Vocabulary


def read_rule(table: TomlTable, number: int, vocabulary: Vocabulary, inputs: Mapping[str, Input]) -> Rule | None:
    """Read a rule; mistakes go to the file's problems. number: from 1."""
    reader = _RuleReader(table, vocabulary, inputs)
    named = table.texts("setting", required=True) or ()
    settings = reader.settings(named, "setting")
    excepted = set(reader.settings(table.texts("except") or (), "except"))
    settings = tuple(setting for setting in settings if setting not in excepted)
    actions = reader.actions(settings)
    when = read_conditions(table, inputs)
    rule = Rule(
        number=number,
        named=named,
        settings=settings,
        actions=actions,
        when=when,
        why=table.text("why"),
        source=table.text("source"),
        place=table.file.place(table.path),
    )
    table.done()
    if table.has("setting") and not settings and all(vocabulary.expand(name) for name in named):
        table.complain("no-setting", "The rule names no setting that is left.", "", "Check setting and except.")
    return rule


class _RuleReader:
    def __init__(self, table: TomlTable, vocabulary: Vocabulary, inputs: Mapping[str, Input]) -> None:
        self.table, self.vocabulary, self.inputs = table, vocabulary, inputs
        self.written: dict[str, str] = {}  # a setting -> the word in the file that means it: itself, or a group
        self.said: set[str] = set()

    def settings(self, names: tuple[str, ...], key: str) -> tuple[str, ...]:
        meant: dict[str, None] = {}
        for name in names:
            members = self.vocabulary.expand(name)
            if BORE in members:
                hint = f'Ask for it instead: when = {{ "{FITTED}" = "= 0.4 mm" }}.'
                self.table.complain("read-only", f"No recipe can set {BORE}: a nozzle is changed by hand.", key, hint)
            if not members:
                hint = did_you_mean(name, self.vocabulary.names(), SEE_SETTINGS)
                self.table.complain("unknown-setting", f"{name!r} is not a setting and not a group.", key, hint)
            meant.update(dict.fromkeys(members))
            self.written |= {member: name for member in members if member not in self.written}
        return tuple(meant)

    def actions(self, settings: tuple[str, ...]) -> tuple[Action, ...]:
        names = [name for name in BY_NAME if self.table.has(name)]
        if not names:
            from profilesmith.recipe.no_operation import no_operation  # only when something is wrong

            no_operation(self.table)
        for one, other in combinations(names, 2):
            if not BY_NAME[one].goes_with(BY_NAME[other]):
                hint = "Write one rule for each operation."
                self.table.complain("operations", f"{' and '.join(names)} cannot stand in one rule.", names[1], hint)
                break
        kinds = [self.vocabulary.settings[name] for name in settings]
        actions = (self.action(BY_NAME[name], kinds) for name in names)
        return tuple(action for action in actions if action is not None)

    def action(self, operation: Operation, settings: list[Setting]) -> Action | None:
        written = self.table.raw(operation.name)
        items = written if isinstance(written, list) else [written]
        if isinstance(written, list) and len(items) != operation.operands:
            self.complain(operation, f"{operation.name} needs {operation.operands} value(s).")
            return None
        whole = not isinstance(written, list)
        if whole and operation.operands == 2 and not (isinstance(written, dict) and written.keys() & {"input", "fact"}):
            self.complain(
                operation, f"{operation.name} needs two ends.", f'Write {operation.name} = ["210 °C", "220 °C"].'
            )
            return None
        operands = [self.operand(operation, item, settings, whole) for item in items]
        for setting in settings:
            if not operation.takes(setting.kind):
                self.complain(operation, *self.misfit(operation, setting))
        return Action(operation.name, tuple(operand for operand in operands if operand is not None))

    def misfit(self, operation: Operation, setting: Setting) -> tuple[str, str]:
        """Why an operation cannot stand for a setting, and what can."""
        if not setting.is_number:
            error = f"a {setting.kind} is no number, and {operation.name} is for numbers"
            operation = operation if BY_NAME[operation.instead].takes(setting.kind) else BY_NAME[operation.instead]
        elif operation.reads == RATIO and setting.kind == "temperature":
            error = "a temperature cannot be multiplied"
        else:
            error = f"{operation.name} is not for a {setting.kind}"
        return f"{self.word(setting)}: {error}.", f"Use {operation.instead}."

    def word(self, setting: Setting) -> str:
        """A setting as the file has it: nobody looks for a member of a group that they wrote."""
        return self.written.get(setting.id, setting.id)

    def sample(self, operation: Operation, settings: list[Setting], written: Any = None) -> str:
        from profilesmith.recipe.sample import sample_for  # only when something is wrong

        return sample_for(operation, settings, written)

    def complain(self, operation: Operation, message: str, hint: str = "") -> None:
        if message not in self.said:  # of a group's members each would say it
            self.said.add(message)
            hint = hint or "Give a value of the setting's own kind, with its unit."
            self.table.complain("operand", message, operation.name, hint)

    def operand(self, operation: Operation, written: Any, settings: list[Setting], whole: bool) -> Operand | None:
        """One operand. whole: it stands alone, not as an end of a list."""
        if operation.products:
            from profilesmith.recipe.read_product import read_product  # few rules keep a product

            return read_product(operation, written, settings, self.word, self.complain)
        if isinstance(written, str):
            return self.fixed(operation, written, settings)
        if not isinstance(written, dict):
            shown = str(written).lower() if isinstance(written, bool) else repr(written)
            self.complain(
                operation,
                f"{operation.name} = {shown} is not a text.",
                f"Write a text in quotes, such as {self.sample(operation, settings, written)}.",
            )
            return None
        keys = set(written)
        if keys == {"input"} or keys == {"fact"}:
            return self.reference(operation, written, settings, whole)
        if "of" in keys and keys <= {"of", "times", "plus"}:
            return self.of(operation, written, settings)
        if keys == {"flow"}:
            return read_flow(self.table, self.inputs, operation, written["flow"], settings, self.word, self.complain)
        from profilesmith.recipe.read_count import count_word, read_count  # few rules count

        if count_word(written):
            return read_count(self.table, self.inputs, operation, written, settings, self.word, self.complain)
        hint = "Use { input = }, { fact = }, { of = }, { flow = }, { beads_for = } or { layers_for = }."
        self.complain(operation, f"{sorted(keys)} is no operand.", hint)
        return None

    def fixed(self, operation: Operation, text: str, settings: list[Setting]) -> Fixed:
        for setting in settings:
            reason = why_unreadable(operation, text, setting)
            if reason:
                hint = f"It takes a text such as {self.sample(operation, [setting])}."
                self.complain(operation, f"{self.word(setting)}: {reason}.", hint)
                break
        return Fixed(text)

    def reference(
        self, operation: Operation, written: dict[str, Any], settings: list[Setting], whole: bool
    ) -> Operand | None:
        word, name = next(iter(written.items()))
        kind = subject_kind(self.table, self.inputs, word, name)
        if kind is None:
            return None
        two = operation.operands == 2
        if two and whole != (kind.kind == "window"):
            self.complain(operation, f"{name} does not fit: {operation.name} takes one window, or two single values.")
        elif (kind.kind == "window" and not two) or kind.kind in ("text", "hardness"):
            hint = f"Use {WINDOW.name} for a window."
            self.complain(operation, f"{name} is a {kind.kind}, not what {operation.name} needs.", hint)
        if operation.reads == DIFFERENCE and kind.unit_kind == "temperature":
            hint = f'Write the step into the rule: {operation.name} = "5 °C".'
            self.complain(operation, f"{name} is a temperature, not a step of one.", hint)
        if kind.kind == "choice" and any(setting.kind != "choice" for setting in settings):
            self.complain(operation, f"{name} is a choice, the setting is not.", "Put it into when = { ... }.")
        self.own_choices(operation, name, kind, settings)
        who, takes = (
            (operation.name, {"ratio"})
            if operation.reads == RATIO
            else ("the setting", {setting.kind for setting in settings})
        )
        if kind.unit_kind and takes - {kind.unit_kind}:  # of an unknown setting nothing can be said
            self.complain(
                operation,
                f"{name} is a {kind.unit_kind}; {who} takes a {' and '.join(sorted(takes))}.",
                "Give one of that kind.",
            )
        return InputRef(name) if word == "input" else FactRef(name)

    def own_choices(self, operation: Operation, name: str, kind: FactKind, settings: list[Setting]) -> None:
        """An answer could else write any text at all."""
        of_choice = [setting for setting in settings if kind.kind == setting.kind == "choice"]
        odd = [word for setting in of_choice for word in kind.values if word not in setting.values]
        if odd:
            message = f"{name} may be {odd[0]!r}, which the setting cannot."
            self.complain(operation, message, "Answers must be the setting's own choices.")

    def of(self, operation: Operation, written: dict[str, Any], settings: list[Setting]) -> Operand | None:
        other = self.vocabulary.settings.get(str(written["of"]))
        times = read_number(str(written.get("times", 1)))
        plus = written.get("plus", "")
        if other is None or not other.is_number:
            hint = did_you_mean(str(written["of"]), self.vocabulary.settings, SEE_SETTINGS)
            self.complain(operation, f"{written['of']!r} is no setting with a number.", hint)
            return None
        if times is None or (other.kind == "temperature" and times != 1):
            self.complain(
                operation, f"times = {written.get('times')!r} cannot be used.", "A temperature takes plus only."
            )
            return None
        if plus != "" and not (
            isinstance(plus, str) and not isinstance(read_quantity(plus, other.kind, difference=True), str)
        ):
            self.complain(operation, f"plus = {plus!r} is no {other.kind}.", "Give it with its unit.")
            return None
        if any(setting.kind != other.kind for setting in settings):
            self.complain(operation, f"{other.id} is a {other.kind}, the setting is not.", "Compare like with like.")
        return SettingRef(other.id, times, plus)
