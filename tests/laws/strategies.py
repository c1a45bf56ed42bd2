"""The strategies that the laws share: any bytes, and whole scenarios of text, map, recipes and facts."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from hypothesis import strategies as st

from tests.laws.demands import CANONICAL, CONDITIONS, Asked, Book, Middle, Of, Rule, fact_sets, number_rules, word_rules
from tests.laws.layouts import Page, pages
from tests.laws.settings_in_text import written_settings
from tests.laws.spellings import CHOICE, NUMBERS, SWITCHES, Value, short

ADDABLE = ("support.density", "raft.on", "wall.count", "bed.temperature", "retraction.distance")


@dataclass(frozen=True, repr=False)
class Scenario:
    """addable: settings that the map may add. absent: bound, but their key is not there."""

    page: Page
    book: Book
    decimal: str
    addable: tuple[str, ...] = ()
    absent: tuple[str, ...] = ()

    @property
    def key_map(self) -> str:
        """The map as TOML."""
        text = {**self.page.habits, "decimal": self.decimal}
        parts = ['format = 1\n[keymap]\nname = "generated"\n[text]', *_lines(text)]
        for binding in self.page.bindings:
            parts += ["[[binding]]", *_lines(binding)]
        return "\n".join(parts) + "\n"

    @property
    def recipes(self) -> tuple[str, ...]:
        """The recipes as TOML."""
        return tuple(_recipe(at, rules) for at, rules in enumerate(self.book.recipes))

    @property
    def facts(self) -> str:
        """The facts file as TOML."""
        parts = ["format = 1"]
        for subject in ("machine", "spool", "part"):
            parts.append(f"[{subject}]")
            for name, text in self.book.facts.items():
                if name.startswith(subject):
                    value = text.split(" to ") if " to " in text else text
                    parts.append(f"{name.split('.')[1]} = {json.dumps(value, ensure_ascii=False)}")
        return "\n".join(parts) + "\n"

    def __repr__(self) -> str:
        """What a failing example shows: the files as a user would have them."""
        parts = (
            f"base, {self.page.encoding}:",
            repr(self.page.text),
            "map.toml:",
            self.key_map,
            *self.recipes,
            self.facts,
        )
        return "\n" + "\n".join(parts)

    def _repr_pretty_(self, printer: Any, cycle: bool) -> None:
        printer.text(repr(self))

    def with_recipes(self, *recipes: tuple[Rule, ...]) -> Scenario:
        return replace(self, book=replace(self.book, recipes=recipes))


def _lines(table: Mapping[str, Any]) -> list[str]:
    return [f"{json.dumps(key, ensure_ascii=False)} = {toml(value)}" for key, value in table.items()]


def toml(value: Any) -> str:
    """A value as TOML writes it."""
    if isinstance(value, Mapping):
        return "{ " + ", ".join(_lines(value)) + " }"
    return json.dumps(list(value) if isinstance(value, tuple) else value, ensure_ascii=False)


def _recipe(at: int, rules: tuple[Rule, ...]) -> str:
    parts = ["format = 1", "[recipe]", f'name = "recipe-{at}"', 'version = "1.0.0"', 'title = "Generated"']
    for asked in {
        op.input: op for rule in rules for op in rule.ops.values() if isinstance(op, Asked) and op.input
    }.values():
        parts += [
            f"[inputs.{asked.input}]",
            'kind = "temperature window"',
            f'fact = "{asked.fact}"',
            'ask = "Which ends?"',
        ]
        if asked.default:
            parts.append(f"default = {toml([f'{short(end)} °C' for end in asked.default])}")
    for rule in rules:
        parts += ["[[rule]]", f"setting = {toml(rule.settings)}", 'why = "generated"']
        parts += [f"except = {toml(rule.leave)}"] if rule.leave else []
        parts += [f"{name} = {_operand(operand, rule)}" for name, operand in rule.ops.items()]
        parts += [f"when = {toml(rule.when)}"] if rule.when else []
    return "\n".join(parts) + "\n"


def _operand(operand: Any, rule: Rule) -> str:
    if isinstance(operand, Of):
        return f'{{ of = "{operand.setting}", times = {float(operand.times)!r} }}'
    if isinstance(operand, Asked):
        return toml({"input": operand.input} if operand.input else {"fact": operand.fact})
    if isinstance(operand, str):
        return toml(operand)
    texts = [_quantity(value, next(iter(rule.members()))) for value in operand]
    return toml(texts if len(texts) > 1 else texts[0])


def _quantity(value: Value, setting: str) -> str:
    if isinstance(value, bool):
        return "on" if value else "off"
    if isinstance(value, str):
        return value
    return f"{short(value)} {CANONICAL[NUMBERS[setting].kind] if setting in NUMBERS else 'mm/s'}".strip()


@st.composite
def scenarios(draw: st.DrawFn, aims: bool = True, rules: bool = True) -> Scenario:
    """A text with its map, and recipes that ask something of it. aims: whether rules may aim."""
    decimal = draw(st.sampled_from((".", ".", ",")))
    writtens = draw(written_settings(decimal))
    present = {slot.setting: slot for written in writtens for slot in written.slots}
    missing = [name for name in ADDABLE if name not in present]
    addable = tuple(name for name in missing[:2] if draw(st.booleans()))
    absent = tuple(name for name in missing[2:3] if draw(st.booleans()))
    page = draw(pages(writtens, addable, absent))
    scenario = Scenario(page, Book((), {}), decimal, addable, absent)
    if not rules:
        return scenario
    middle = Middle(draw)
    targets = [*present, *present, *addable, *absent, "top.layers", "travel.speed", *missing[:1]]
    wanted: dict[str, Value] = {name: draw(st.booleans()) for name in SWITCHES} | {
        CHOICE: draw(st.sampled_from(("gyroid", "grid", "cubic")))
    }
    recipes = []
    for _ in range(draw(st.integers(1, 3))):
        found = []
        for name in draw(st.lists(st.sampled_from(targets), min_size=1, max_size=4)):
            slot = present.get(name)
            rule = draw(
                number_rules(middle, name, slot is not None and not slot.exact, aims)
                if name in NUMBERS
                else word_rules(wanted, name)
            )
            if not aims and "aim" in rule.ops:
                rule = replace(rule, ops={"set": rule.ops["aim"]})
            found.append(replace(rule, when=draw(st.sampled_from(CONDITIONS))))
        recipes.append(tuple(found))
    return replace(scenario, book=Book(tuple(recipes), draw(fact_sets(middle))))


def any_bytes() -> st.SearchStrategy[bytes]:
    """Bytes of every sort: noise, marks of encodings, lines that nearly are settings."""
    marks = (
        b"\n",
        b"\r\n",
        b"\r",
        b"=",
        b" = ",
        b":",
        b"[",
        b"]",
        b";",
        b"#",
        b"//",
        b"\\",
        b'"',
        b"'",
        b"key",
        b"1.5",
        b"\t",
        b" ",
        b"\xff\xfe",
        b"\xfe\xff",
        b"\xef\xbb\xbf",
        b"\x00",
        b"\xe4",
        b"\xc3\xa4",
        b"\xd8\x00",
        b"\x00\xdc",
        b"\x0c",
        b"\x1c",
        b"\xe2\x80\xa8",
    )
    soup = st.lists(st.sampled_from(marks), max_size=30).map(b"".join)
    texts = st.text(max_size=60).flatmap(
        lambda text: st.sampled_from([text.encode(name, "surrogatepass") for name in ("utf-8", "utf-16", "utf-8")])
    )
    return st.one_of(st.binary(max_size=60), soup, texts)


__all__ = ["Fraction", "Scenario", "any_bytes", "scenarios", "toml"]
