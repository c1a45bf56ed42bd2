"""What ``[text]`` of a key map may say: each bound from both sides."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from profilesmith.translation.text_table import LONGEST_FORM

Text = Callable[..., str]
LONGEST = "= " * 9 + "name ="


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ('delimiter = ":=:"', ""),
        ('delimiter = ":=:="', "delimiter"),
        ('delimiter = "a"', "delimiter"),
        ('delimiter = "=a"', "delimiter"),
        ('delimiter = ["=", "\\""]', "delimiter"),
        ('delimiter = ["=", ":"]', ""),
        ('delimiter = "  "', ""),
        (f'headings = "{LONGEST}"', ""),
        (f'headings = "{LONGEST}="', "headings"),
        ('lines = "{number} {value} TO {key} STOP"', ""),
        ('lines = ["- {key}: {value}", "{key};{value};{value};{any}"]', ""),
        ('lines = "{key}{value}"', "lines"),
        ('lines = "{key} = value"', "lines"),
        ('lines = "{key} = {value} {more}"', "lines"),
        ('lines = "{key} {key} = {value}"', "lines"),
        ('decimal = ","', ""),
        ('decimal = ";"', "decimal"),
        ('thousands = "\'"', ""),
        ('thousands = ";"', "thousands"),
        ('decimal = ","\nthousands = "."', ""),
        ('decimal = ","\nthousands = ","', "thousands"),
    ],
)
def test_what_it_may_say(line: str, code: str, read_map: Callable[..., Any], bind: Text) -> None:
    _, problems = read_map(f"[text]\n{line}\n" + bind("outer_wall.speed", "a"))
    assert [problem.code for problem in problems] == ([code] if code else [])


def test_the_longest_form_is_the_longest() -> None:
    assert len(LONGEST) == LONGEST_FORM


@pytest.mark.parametrize(
    ("written", "read"), [('"   "', (" ",)), ('" := "', (":=",)), ('["=", "   "]', ("=", " ")), ('["=", " ="]', ("=",))]
)
def test_blanks_round_a_sign_say_nothing_and_several_are_one(
    written: str, read: tuple[str, ...], read_map: Callable[..., Any], bind: Text
) -> None:
    key_map, _ = read_map(f"[text]\ndelimiter = {written}\n" + bind("outer_wall.speed", "a"))
    assert key_map.habits.delimiters == read
