"""Which lines of a text count for a binding."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from profilesmith.text.read_document import read_document
from profilesmith.translation.find_keys import MOST_ALIKE, KeyIndex

ReadMap = Callable[..., Any]
Text = Callable[..., str]
ONE_SIGN, TWO_SIGNS = "h\u00f6he", "ho\u0308he"


def index(text: str) -> KeyIndex:
    return KeyIndex((read_document(text.encode(), "base.cfg"),))


def test_so_many_equal_lines_are_kept_alike_and_no_more(read_map: ReadMap, bind: Text) -> None:
    key_map, _ = read_map(bind("outer_wall.speed", "a"))
    binding = key_map.bindings[0]
    lines, problems = index("a = 1\n" * MOST_ALIKE).chosen(binding, "")
    assert (len(lines), problems) == (MOST_ALIKE, [])
    many = index("a = 1\n" * (MOST_ALIKE + 1))
    lines, problems = many.chosen(binding, "")
    assert (lines, [problem.code for problem in problems]) == ([], ["too-many-lines"])
    for policy, line in (("first", 1), ("last", MOST_ALIKE + 1)):
        lines, problems = many.chosen(binding, policy)
        assert ([item.assignment.line for item in lines], problems) == ([line], [])


def test_a_letter_composed_otherwise_is_the_same_letter() -> None:
    """Unicode Standard Annex 15: canonically equivalent texts are the same text."""
    for written, asked in ((ONE_SIGN, TWO_SIGNS), (TWO_SIGNS, ONE_SIGN)):
        assert index(f"{written} = 1\n").alike(asked) == written
        assert [line.assignment.line for line in index(f"a = 1\n{written} = 1\n").find(asked, None)] == [2]
    assert index("a = 1\n").alike(ONE_SIGN) == ""
    assert index("hohe = 1\n").find(ONE_SIGN, None) == []
