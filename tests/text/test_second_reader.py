"""configparser, line by line: what it divides, and what it cannot know."""

from __future__ import annotations

import pytest

from profilesmith.text.document import Habits
from profilesmith.text.second_reader import KeyRead, SecondReader


def read(text: str, habits: Habits = Habits(), delimiter: str = "=") -> dict[int, KeyRead]:
    return dict(SecondReader(delimiter, habits).read(enumerate(text.split("\n"), 1)))


def test_each_entry_stands_at_its_line() -> None:
    assert read("a = 1\n\n[ s ]\n# r\nb = 2") == {1: KeyRead("", "a", "1"), 5: KeyRead("s", "b", "2")}


def test_equal_keys_and_equal_sections_are_told_from_one_another() -> None:
    text = "[s]\na = 1\n[t]\na = 2\n[s]\na = 3\na = 4\n  5"
    assert read(text) == {
        2: KeyRead("s", "a", "1"),
        4: KeyRead("t", "a", "2"),
        6: KeyRead("s", "a", "3"),
        7: KeyRead("s", "a", "4\n5"),
    }


def test_a_line_that_cannot_be_divided_hides_no_other() -> None:
    assert read("a = 1\nwords alone\nb = 2\n= 3") == {
        1: KeyRead("", "a", "1"),
        3: KeyRead("", "b", "2"),
        4: KeyRead("", "", "3"),
    }


def test_two_texts_are_read_apart() -> None:
    reader = SecondReader("=", Habits())
    assert reader.read([(1, "[s]"), (2, "a = 1")]) == {2: KeyRead("s", "a", "1")}
    assert reader.read([(1, "a = 2"), (2, "b = 3")]) == {1: KeyRead("", "a", "2"), 2: KeyRead("", "b", "3")}


@pytest.mark.parametrize(
    ("line", "habits", "expected"),
    [
        ("a  1 x", Habits(delimiter="  "), ("a", "1 x")),
        ("a\t1 x", Habits(delimiter="  "), ("a", "1 x")),
        ("a : 1", Habits(delimiter="=", others=(":",)), ("a", "1")),
        ("a | 1", Habits(delimiter="|", comments=("|",)), ("a", "1")),
        ("a = 1 # x", Habits(inline=True), ("a", "1")),
        ("a = 1 # x", Habits(), ("a", "1 # x")),
        ("# a = 1", Habits(comments=()), ("# a", "1")),
    ],
)
def test_the_map_says_how_lines_are_written(line: str, habits: Habits, expected: tuple[str, str]) -> None:
    assert read(line, habits) == {1: KeyRead("", *expected)}


@pytest.mark.parametrize(
    ("line", "habits"),
    [("1 = a", Habits(delimiter="=", value_first=True)), ("of 3 walls 1", Habits(delimiter=" 0"))],
)
def test_what_it_has_no_word_for_it_does_not_read(line: str, habits: Habits) -> None:
    assert read(line, habits) == {}


def test_no_heading_is_taken_for_one_of_its_own() -> None:
    assert read("[DEFAULT]\na = 1\n[x]\nb = 2") == {2: KeyRead("DEFAULT", "a", "1"), 4: KeyRead("x", "b", "2")}
