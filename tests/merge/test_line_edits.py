"""What was edited between two states of a text, in words: how many lines are shown, and how much of each."""

from __future__ import annotations

import pytest

from profilesmith.merge.line_edits import line_edits
from profilesmith.merge.other_keys import MOST as MOST_LINES
from profilesmith.review.line_edit_words import BEFORE, LONGEST, MOST, line_edit_sentence
from profilesmith.text.read_document import read_document


def told(old: str, mine: str, mapped: bool = False, named: bool = False) -> list[str]:
    documents = [read_document(text.encode(), "a.cfg") for text in (old, mine)]
    return list(map(line_edit_sentence, line_edits(*documents, lambda _: mapped, lambda _: named, lambda _: named)))


BASE = "a = 1\nb = 2\nc = 3\n"


@pytest.mark.parametrize("many", [1, 2, MOST, MOST + 1, MOST + 2])
def test_so_many_lines_are_shown_and_the_rest_is_counted(many: int) -> None:
    names = [f"n{number}" for number in range(many)]
    (sentence,) = told(BASE, BASE + "".join(f"{name} = 5\n" for name in names))
    assert sentence.startswith(f'{many} {"line was" if many == 1 else "lines were"} put in (a.cfg): 4 "n0 = 5"')
    assert [name for name in names if f'"{name} = 5"' in sentence] == names[:MOST]
    assert sentence.endswith(f" and {many - MOST} more") is (many > MOST)
    (gone,) = told(BASE + "".join(f"{name} = 5\n" for name in names), BASE)
    assert gone == sentence.replace("put in", "taken out")


def test_so_much_of_a_text_is_shown() -> None:
    (whole,) = told("a = 1\n", f"a = {'x' * LONGEST}\n")
    assert whole == f"a 1 → {'x' * LONGEST} (a.cfg:1)"
    (cut,) = told("a = 1\n", f"a = {'x' * LONGEST}y\n")
    assert cut == f"a 1 → {'x' * LONGEST}… (a.cfg:1)"


def test_of_a_long_text_is_shown_where_it_differs() -> None:
    same = "x" * LONGEST
    (shown,) = told(f"a = {same}1\n", f"a = {same}2\n")
    assert shown == f"a …{'x' * BEFORE}1 → …{'x' * BEFORE}2 (a.cfg:1)"


@pytest.mark.parametrize(("changed", "sentences"), [(1, 1), (2, 2), (MOST_LINES, MOST_LINES), (MOST_LINES + 1, 1)])
def test_of_a_value_that_goes_on_below_the_lines_are_told_that_differ(changed: int, sentences: int) -> None:
    """Of many the value as a whole, so that a block that was written anew is one edit."""
    lines = [f"  G1 X{number}\n" for number in range(20)]
    new = [line.replace("X", "Y") for line in lines[:changed]] + lines[changed:]
    said = told(f"wake = G28\n{''.join(lines)}b = 2\n", f"wake = G28\n{''.join(new)}b = 2\n")
    assert len(said) == sentences
    if changed <= MOST_LINES:
        assert said[-1] == f"wake G1 X{changed - 1} → G1 Y{changed - 1} (a.cfg:{changed + 1})"


def test_a_changed_value_is_named_once() -> None:
    assert told("[s]\na = 1\n", "[s]\na = 2\n") == ["[s] a 1 → 2 (a.cfg:2)"]
    assert told("a = 1\n", "a = 1.0\n", mapped=True) == ["a 1 → 1.0 (a.cfg:1); to the map it means the same"]
    assert told("a = 1\n", "a = 2\n", named=True) == []  # with its rule, elsewhere
    assert told(BASE, BASE) == []


def test_moved_lines_and_blank_ones() -> None:
    assert told(BASE, "b = 2\nc = 3\na = 1\n") == ['1 line was moved (a.cfg): 3 "a = 1"']
    assert told("a = 1\nb = 2\n", "a = 1\n\nb = 2\n") == ["1 line was put in (a.cfg): 2 (empty)"]
    assert told("a = 1\n", "a  = 1\n") == ['1 line was changed around their values (a.cfg): 1 "a  = 1"']
