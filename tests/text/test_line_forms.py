"""Lines in forms that a map names: with numbers before them, words between value and key, in tables of many columns."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from profilesmith.text.document import Habits
from profilesmith.text.line_forms import LONGEST_LINE, LineForms, is_line_form
from profilesmith.text.read_document import read_document


@pytest.mark.parametrize(
    ("form", "line", "key", "value"),
    [
        ("{number} {value} TO {key} STOP", "0125  208 TO BRAMO STOP", "BRAMO", "208"),
        ("- {key}: {value}", "- tip at first :  419 F", "tip at first", "419 F"),
        ("- {key} is {value}", "-  every layer is 8 mil", "every layer", "8 mil"),
        ("{number};{key};{value};{any}", "12;Q21;0,4;;mm", "Q21", "0,4"),
        ("{key};{value};{value};{any}", "Q21;0,4;0,6;mm", "Q21", "0,4;0,6"),
        ("{value} .. {key}  {any}", "203 C ......... nozzle heat   (was 200)", "nozzle heat", "203 C"),
        ("| {key} | {value} |", "| rim | 80 |", "rim", "80"),
        ("{key}={value}[{any}", "I.a = 212 [7]", "I.a", "212"),
        ("{key}  {value}", "rim pace\t80", "rim pace", "80"),
    ],
)
def test_where_key_and_value_stand(form: str, line: str, key: str, value: str) -> None:
    spans = LineForms((form,)).spans(line)
    assert spans is not None
    assert (line[spans[0] : spans[1]], line[spans[2] : spans[3]]) == (key, value)


@pytest.mark.parametrize(
    ("form", "line"),
    [
        ("{number} {key}={value}", "rim=80"),
        ("{key};{value};{any}", "rim;80"),
        ("{key} TO {value}", "rimTO80"),
        ("{key}={value}", "=80"),
        ("{key}={value}", "rim=" + "8" * LONGEST_LINE),
    ],
)
def test_lines_of_another_form(form: str, line: str) -> None:
    assert is_line_form(form)
    assert LineForms((form,)).spans(line) is None


def test_the_first_form_that_fits_counts_and_other_lines_are_unread() -> None:
    text = b"- rim = 80 # outer\n- rim : half\nrim = 90\n\nPACES\n- core = 60\n"
    forms = ("- {key} = {value}", "- {key} : {value}")
    document = read_document(text, habits=Habits(comments=("#",), inline=True, headings=("name",), lines=forms))
    assert [(item.section, item.key, document.value(item)) for item in document.assignments] == [
        ("", "rim", "80"),
        ("", "rim", "half"),
        ("PACES", "core", "60"),
    ]
    assert [document.text[line.start : line.end] for line in document.unread] == ["rim = 90"]


def test_headings_with_numbers() -> None:
    text = b".--- 1 --- Tip -----.\nheat = 200\n.--- 12 -- Bed -----.\nheat = 60\n"
    document = read_document(text, habits=Habits(headings=(".-- {number} -- name --.",)))
    assert [(item.section, item.key) for item in document.assignments] == [("Tip", "heat"), ("Bed", "heat")]


def test_only_the_value_changes(
    derived: Callable[..., Any], bind: Callable[..., str], rule: Callable[..., str]
) -> None:
    head = '[text]\nlist = ";"\nlines = ["{number};{key};{value};-;{any}", "{number};{key};{value};{value};{any}"]\n'
    lines = bind("outer_wall.speed", "Q3", "tools = true") + bind("infill.speed", "Q4", "tools = true")
    text = b"row;code;left;right;unit;was\r\n1;Q3;50;12;mm/s;45 / 45\r\n2;Q4;80;-;mm/s;\r\n"
    made = derived(text, head + lines, rule("printing speeds", 'cap = "15 mm/s"'))
    assert made.outputs[0] == b"row;code;left;right;unit;was\r\n1;Q3;15;12;mm/s;45 / 45\r\n2;Q4;15;-;mm/s;\r\n"
