"""The pieces of a raw value. A span one sign off writes into a quote, a neighbour or the next line of a file."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilesmith.translation.pieces import mark_of_thousands, pieces

LIST = "tools = true\n"
FIELD = 'split = "/"\nfield = {}\n'


@pytest.mark.parametrize(
    ("more", "raw", "texts"),
    [
        ("", "5", ["5"]),
        ("", "  5 ", ["5"]),
        ("", "", []),
        ("", "   ", []),
        ("", '""', []),  # quotes with nothing in them hold no value
        ("", "''", []),
        ("", '" "', []),
        ("", '"5"', ["5"]),
        ("", "'5'", ["5"]),
        ("", '" 5 "', ["5"]),
        ("", '"', ['"']),  # one mark alone is none that closes
        ("", "\"5'", ["\"5'"]),
        ("", "a5a", ["a5a"]),
        (LIST, "1, 2,3", ["1", "2", "3"]),
        (LIST, '"1, 2"', ["1", "2"]),
        (LIST, '"1","2"', ["1", "2"]),
        (LIST, "1,,3", ["1", "", "3"]),  # each tool keeps its place
        (LIST, ",,", []),
        (LIST, "[0.4, 0.6]", ["0.4", "0.6"]),
        (LIST, "( 0.4 , 0.6 )", ["0.4", "0.6"]),
        (LIST, '["a", "b"]', ["a", "b"]),
        (LIST, "[0.4], [0.6]", ["[0.4]", "[0.6]"]),  # no one pair of brackets holds both
        (LIST, "[]", []),
        (LIST + 'list = " "\n', "1  2 3", ["1", "2", "3"]),
        (LIST + 'list = "||"\n', "1||2", ["1", "2"]),
        (LIST + 'list = "||"\n', "1|2", ["1|2"]),
        (FIELD.format(1), "210/60", ["210"]),
        (FIELD.format(2), "210/60", ["60"]),
        (FIELD.format(2), "210", []),
        (FIELD.format(3), "210/60", []),
        (FIELD.format(2), '"210/60"', ["60"]),
        (FIELD.format(2), '"210"/"60"', ["60"]),
        (FIELD.format(2) + LIST, "210/60, 220/70", ["60", "70"]),
        (FIELD.format(2) + LIST, "210/60, 220", ["60", ""]),
    ],
)
def test_each_value_and_nothing_around_it(
    more: str, raw: str, texts: list[str], read_map: Callable[[str], Any], bind: Callable[..., str]
) -> None:
    key_map, problems = read_map(bind("outer_wall.speed", "a", more))
    assert problems == []
    spans = pieces(key_map.bindings[0], key_map, raw)
    assert [span.of(raw) for span in spans] == texts
    for span in spans:
        assert 0 <= span.start <= span.end <= len(raw)


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_a_value_that_goes_on_below_keeps_its_quotes(
    end: str, read_map: Callable[[str], Any], bind: Callable[..., str]
) -> None:
    key_map, _ = read_map(bind("outer_wall.speed", "a"))
    for raw, text in ((f'"5\\{end}"', f'"5\\{end}"'), ('"5\\"', "5\\"), (f'"5{end}"', "5")):
        assert [span.of(raw) for span in pieces(key_map.bindings[0], key_map, raw)] == [text]


@given(st.text("+-0123456789.,x²", max_size=9))
def test_a_number_that_may_have_its_thousands_divided(text: str) -> None:
    grouped = re.match(r"[+-]?[1-9][0-9]{0,2}([.,])[0-9]{3}(?![0-9.,])", text)
    assert mark_of_thousands(text) == (grouped[1] if grouped else "")
