"""Which lines of a text count for a binding."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from profilesmith.text.read_document import read_document
from profilesmith.translation.find_keys import MOST_ALIKE, KeyIndex, value_text

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


@pytest.mark.parametrize("policy", ["", "first", "last"])
def test_a_key_in_two_sections_is_never_guessed(policy: str, read_text: Callable[..., Any], bind: Text) -> None:
    """Equal numbers in two sections may mean quite different things, and a change would hit both."""
    head = f'[text]\nduplicates = "{policy}"\n' if policy else ""
    (problem,) = read_text(head + bind("outer_wall.speed", "a"), "[x]\na = 60\n[y]\na = 60\n").problems
    assert problem.code == "two-lines"
    assert problem.place.line == 4
    assert "('x', 'y')" in problem.message
    assert "base1.cfg:2 and base1.cfg:4" in problem.message
    assert problem.hint == "Say in the map which section is meant: 'x', 'y'."


def test_a_key_in_too_many_lines_points_at_the_second(read_text: Callable[..., Any], bind: Text) -> None:
    problem = read_text(bind("outer_wall.speed", "a"), "a = 60\n" * 1001).problems[0]
    assert (problem.code, problem.place.line) == ("too-many-lines", 2)


def test_the_first_line_that_differs_is_named(read_text: Callable[..., Any], bind: Text) -> None:
    (problem,) = read_text(bind("outer_wall.speed", "a"), "a = 60\na = 60\na = 70\na = 80\n").problems
    assert (problem.code, problem.place.line) == ("two-lines", 3)
    assert "base1.cfg:1 ('60') and base1.cfg:3 ('70')" in problem.message


def test_a_letter_composed_otherwise_is_the_same_letter() -> None:
    """Unicode Standard Annex 15: canonically equivalent texts are the same text."""
    for written, asked in ((ONE_SIGN, TWO_SIGNS), (TWO_SIGNS, ONE_SIGN)):
        assert index(f"{written} = 1\n").alike(asked) == written
        assert [line.assignment.line for line in index(f"a = 1\n{written} = 1\n").find(asked, None)] == [2]
    assert index("a = 1\n").alike(ONE_SIGN) == ""
    assert index("hohe = 1\n").find(ONE_SIGN, None) == []


@pytest.mark.parametrize(
    ("more", "text"),
    [("", "200,"), ('tools = true\nlist = ","', "200,\n  210"), ('split = ","\nfield = 1', "200,\n  210")],
)
def test_only_what_the_map_divides_goes_on_below(more: str, text: str, read_map: ReadMap, bind: Text) -> None:
    """Values for several tools, or of several settings, may stand on lines of their own; a number has one line."""
    document = read_document(b"a = 200,\n  210\n", "base.cfg")
    binding = read_map(bind("nozzle.temperature", "a", more))[0].bindings[0]
    assert value_text(document, document.assignments[0], binding) == text
