"""One card in many layouts: every key and every value is read, below its heading, and changed in place alone."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest

from profilesmith.suggest.detect_habits import find_habits
from profilesmith.text.document import Edit
from profilesmith.text.edit_document import edit_document
from profilesmith.text.read_document import read_document
from tests.text.raw_entries import raw_entries

# Invented; heading -> key, value, unit, remark.
CARD = {
    "Heat": (
        ("tip warmth", "205", "C", "brass one"),
        ("slab warmth", "60", "C", "glass"),
        ("tip at first", "212.5", "C", "first sheet"),
    ),
    "Pace": (
        ("outer ring", "35", "mm/s", "the visible one"),
        ("inner ring", "55", "mm/s", "behind it"),
        ("stuffing", "80", "mm/s", "loose"),
        ("idle hops", "150", "mm/s", "nothing comes out"),
    ),
    "Sheets": (
        ("sheet rise", "0.2", "mm", "all but one"),
        ("lids", "5", "", "on top"),
        ("weave", "gyroid", "", "or lines"),
        ("props wanted", "yes", "", "under slopes"),
    ),
}
Row = tuple[str, str, str, str]


def coded(key: str) -> str:
    return key.replace(" ", "_")


def sheet(row: Callable[[Row], str], head: Callable[[str], str] | None = None, between: str = "\n") -> str:
    blocks = []
    for name, rows in CARD.items():
        blocks.append((f"{head(name)}\n" if head else "") + "\n".join(row(one) for one in rows) + "\n")
    return between.join(blocks)


def with_unit(value: str, unit: str) -> str:
    return f"{value} {unit}".strip()


LINES: dict[str, Callable[[Row], str]] = {
    "equals": lambda r: f"{r[0]} = {with_unit(r[1], r[2])}",
    "colon": lambda r: f"{r[0]}: {with_unit(r[1], r[2])}",
    "semicolon": lambda r: f"{r[0]}; {r[1]}",
    "semicolons": lambda r: f"{r[0]} ; {r[1]} ; {r[3]}",
    "tight semicolons": lambda r: f"{r[0]};{r[1]};{r[3]}",
    "arrow": lambda r: f"{r[0]} -> {with_unit(r[1], r[2])}",
    "real arrow": lambda r: f"{r[0]} → {with_unit(r[1], r[2])}",
    "dash": lambda r: f"{r[0]} - {with_unit(r[1], r[2])}",
    "long dash": lambda r: f"{r[0]} – {with_unit(r[1], r[2])}",
    "greater": lambda r: f"{r[0]} > {r[1]}",
    "dots": lambda r: f"{r[0]} {'.' * (30 - len(r[0]))} {with_unit(r[1], r[2])}",
    "spaced dots": lambda r: f"{r[0]} {'. ' * (15 - len(r[0]) // 2)}{r[1]}",
    "bar": lambda r: f"{r[0]} | {r[1]}",
    "table": lambda r: f"| {r[0]:<14} | {r[1]:<8} | {r[2] or '-':<5} | {r[3]} |",
    "columns": lambda r: f"{r[0]:<18}{with_unit(r[1], r[2])}",
    "columns and remark": lambda r: f"{r[0]:<18}{with_unit(r[1], r[2]):<12}// {r[3]}",
    "columns in brackets": lambda r: f"{r[0]:<18}{r[1]:<12}({r[3]})",
    "columns of four": lambda r: f"{r[0]:<18}{r[1]:<12}{r[2] or '-':<8}{r[3]}",
    "tabs": lambda r: f"{r[0]}\t{r[1]}\t{r[3]}",
    "tab": lambda r: f"{r[0]}\t{with_unit(r[1], r[2])}",
    "statement": lambda r: f"{coded(r[0])} = {with_unit(r[1], r[2])};",
    "quoted": lambda r: f'"{coded(r[0])}": "{r[1]}",',
    "bracket": lambda r: f"{r[0]} = {r[1]} [{r[3]}]",
    "stars": lambda r: f"{r[0]} = {r[1]} /* {r[3]} */",
    "bullets": lambda r: f"* {r[0]}: {r[1]}",
    "remark above": lambda r: f"# {r[3]}\n{coded(r[0])} = {r[1]}",
}
HEADS: dict[str, Callable[[str], str]] = {
    "square": lambda name: f"[{name}]",
    "double square": lambda name: f"[[ {name} ]]",
    "equals": lambda name: f"== {name} ==",
    "one side": lambda name: f"=== {name}",
    "behind": lambda name: f"{name} -----",
    "angles": lambda name: f"<{name}>",
    "double angles": lambda name: f"<< {name} >>",
    "stars": lambda name: f"*** {name} ***",
    "prefix": lambda name: f">> {name}",
    "colon": lambda name: f"{name}:",
    "plain": lambda name: name.upper(),
    "underlined": lambda name: f"{name}\n{'-' * len(name)}",
    "brace": lambda name: f"{name} {{",
    "hash": lambda name: f"## {name} ##",
}


def read(text: str) -> list[tuple[str, str, str]]:
    """All assignments; and each value is changed alone: no other byte moves, and it is read back."""
    habits = find_habits([text])
    document = read_document(text.encode(), "card", habits)
    for item in document.assignments:
        new = edit_document(document, [Edit(item.start, item.end, "7")])
        assert new.decode() == f"{text[: item.start]}7{text[item.end :]}"
        again = raw_entries(read_document(new, "card", habits))
        assert again == {**raw_entries(document), (item.section, item.key, 0): "7"}
    return [(item.section, item.key, document.value(item).strip('"')) for item in document.assignments]


def expected(headed: bool, key: Callable[[str], str] = str, units: bool = False) -> Iterator[tuple[str, str, str]]:
    for name, rows in CARD.items():
        for row in rows:
            yield name if headed else "", key(row[0]), with_unit(row[1], row[2]) if units else row[1]


def plain(key: str) -> str:
    return key.strip("* \"'").replace("_", " ")


def number(value: str) -> str:
    return value.split(" ")[0]


@pytest.mark.parametrize("form", LINES)
def test_a_line_in_any_layout(form: str) -> None:
    rows = read(sheet(LINES[form], lambda name: f"[{name}]"))
    assert [(name, plain(key), number(value)) for name, key, value in rows] == list(expected(True))


@pytest.mark.parametrize("form", HEADS)
@pytest.mark.parametrize("line", ["colon", "columns", "equals"])
def test_a_heading_in_any_form(form: str, line: str) -> None:
    rows = read(sheet(LINES[line], HEADS[form]))
    found = [(name.casefold(), plain(key), number(value)) for name, key, value in rows]
    assert found == [(name.casefold(), *rest) for name, *rest in expected(True)]


def test_indented_below_a_heading_without_a_gap() -> None:
    rows = read(sheet(lambda r: f"    {r[0]} = {r[1]}", str, between=""))
    assert rows == list(expected(True))


@pytest.mark.parametrize("form", ["{1} {2}  {0}", "{1} = {0}", "{1} {0}", "{1}\t{0}"])
def test_the_key_behind_its_value(form: str) -> None:
    rows = read(sheet(lambda r: form.format(r[0], r[1], r[2] or "x" if "{2}" in form else "")))
    assert [(key, number(value)) for _, key, value in rows] == [(key, value) for _, key, value in expected(False)]


@pytest.mark.parametrize("form", ["{0}={1}; ", "{0} = {1}, ", "{0} = {1}   ", "{0}: {1} | "])
def test_several_keys_in_a_line(form: str) -> None:
    text = "\n".join("".join(form.format(coded(r[0]), r[1]) for r in rows).rstrip("; ,|") for rows in CARD.values())
    assert read(text + "\n") == list(expected(False, coded))


@pytest.mark.parametrize("mark", [" / ", " | ", "   ", " ; "])
def test_values_of_two_tools_stand_in_one_value(mark: str) -> None:
    rows = read(sheet(lambda r: f"{r[0]:<18} {r[1]}{mark}{r[1]}"))
    assert [value for _, _, value in rows] == [f"{value}{mark}{value}" for _, _, value in expected(False)]


def test_each_line_its_own() -> None:
    forms = ["{0} = {1}", "{0}: {1}", "{0} -> {1}", "{0}; {1}", "{0}   {1}"]
    rows = [row for block in CARD.values() for row in block] * 2
    text = "".join(forms[at % 5].format(f"{coded(row[0])}.{at}", row[1]) + "\n" for at, row in enumerate(rows))
    assert [(key, value) for _, key, value in read(text)] == [
        (f"{coded(row[0])}.{at}", row[1]) for at, row in enumerate(rows)
    ]
