"""Texts whose lines do not all divide key and value by the same sign, and lines that cannot be read."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from profilesmith.text.document import Habits
from profilesmith.text.read_document import read_document
from profilesmith.text.unread import like_settings, likely_delimiter

TEXT = b"rim = 80\ncore : 60 mm/s\nsole -> 20\nurl : a=b\nwall=c:d\nlone\n"


def read(*delimiters: str) -> list[tuple[str, str]]:
    document = read_document(TEXT, habits=Habits(delimiter=delimiters[0], others=delimiters[1:]))
    return [(item.key, document.value(item)) for item in document.assignments]


def test_the_first_sign_in_a_line_counts() -> None:
    known = [("rim", "80"), ("core", "60 mm/s"), ("sole", "20"), ("url", "a=b"), ("wall", "c:d")]
    assert read("=", ":", "->") == known
    assert read("->", ":", "=") == known
    assert read("=", ":") == [item for item in known if item[0] != "sole"]


def test_blanks_divide_where_no_other_sign_does() -> None:
    document = read_document(b"a = 1 2\nb 3\n", habits=Habits(delimiter="=", others=(" ",)))
    assert [(item.key, document.value(item)) for item in document.assignments] == [("a", "1 2"), ("b", "3")]


def test_each_line_keeps_its_own(
    derived: Callable[..., Any], bind: Callable[..., str], rule: Callable[..., str]
) -> None:
    head = '[text]\ndelimiter = ["=", ":", "->"]\n'
    lines = bind("outer_wall.speed", "rim") + bind("infill.speed", "core") + bind("first_layer.speed", "sole")
    made = derived(TEXT, head + lines, rule("printing speeds", 'cap = "15 mm/s"'))
    assert made.outputs[0] == b"rim = 15\ncore : 15 mm/s\nsole -> 15\nurl : a=b\nwall=c:d\nlone\n"


@pytest.mark.parametrize(
    ("head", "text", "made"),
    [
        (
            'delimiter = "  "\nlist = "  "\ncomments = ["  "]\ninline_comments = true\nheadings = ["== name =="]\n',
            b"== pace ==\nrim pace     80     14    mm/s\ncore pace    60     90    mm/s\n",
            b"== pace ==\nrim pace     15     14    mm/s\ncore pace    15     15    mm/s\n",
        ),
        (
            'delimiter = "|"\nlist = "|"\ncomments = ["|"]\ninline_comments = true\n',
            b"| rim pace  | 80 | 14 | mm/s |\n| core pace | 60 | 90 | mm/s |\n",
            b"| rim pace  | 15 | 14 | mm/s |\n| core pace | 15 | 15 | mm/s |\n",
        ),
        (
            'delimiter = "="\nnext_key = ";"\nlist = "/"\n',
            b"rim pace=80 / 14; core pace=60;\n",
            b"rim pace=15 / 14; core pace=15;\n",
        ),
        (
            'delimiter = "  "\nvalue_first = true\nlist = "/"\n',
            b"80/14  rim pace\n60     core pace\n",
            b"15/14  rim pace\n15     core pace\n",
        ),
    ],
)
def test_values_of_two_tools_change_one_by_one_in_any_layout(
    derived: Callable[..., Any], bind: Callable[..., str], rule: Callable[..., str], head: str, text: bytes, made: bytes
) -> None:
    lines = bind("outer_wall.speed", "rim pace", "tools = true") + bind("infill.speed", "core pace", "tools = true")
    outcome = derived(text, f"[text]\n{head}{lines}", rule("printing speeds", 'cap = "15 mm/s"'))
    assert outcome.outputs[0] == made


@pytest.mark.parametrize(
    ("line", "sign"),
    [
        ("rim > 80", ">"),
        ("rim pace -> 80 mm/s", "->"),
        ("rim\t80", ""),
        ("rim   80", ""),
        ('name | "soft"', "|"),
        ("rim; 80", ";"),
    ],
)
def test_lines_that_look_like_settings(line: str, sign: str) -> None:
    document = read_document(f"a = 1\n{line}\n".encode())
    assert [found.strip() for _, found in like_settings(document)] == [sign]


@pytest.mark.parametrize("line", ["lone", "just some words of prose here", "---", "M117 hello", "G1 X5 Y3", "(remark)"])
def test_lines_that_do_not(line: str) -> None:
    assert like_settings(read_document(f"a = 1\n{line}\n".encode())) == []


def test_the_likely_sign_is_the_most_frequent() -> None:
    assert likely_delimiter([">", "|", ">"]) == ">"
    assert likely_delimiter([]) == ""
