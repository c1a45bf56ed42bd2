"""What was edited between two states of a text, in words: how many lines are shown, and how much of each."""

from __future__ import annotations

import pytest

from profilesmith.merge.line_edits import line_edits
from profilesmith.review.line_edit_words import LONGEST, MOST, line_edit_sentence
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


def test_a_changed_value_is_named_once() -> None:
    assert told("[s]\na = 1\n", "[s]\na = 2\n") == ["[s] a 1 → 2 (a.cfg:2)"]
    assert told("a = 1\n", "a = 1.0\n", mapped=True) == ["a 1 → 1.0 (a.cfg:1); to the map it means the same"]
    assert told("a = 1\n", "a = 2\n", named=True) == []  # with its rule, elsewhere
    assert told(BASE, BASE) == []


def test_moved_lines_and_blank_ones() -> None:
    assert told(BASE, "b = 2\nc = 3\na = 1\n") == ['1 line was moved (a.cfg): 3 "a = 1"']
    assert told("a = 1\nb = 2\n", "a = 1\n\nb = 2\n") == ["1 line was put in (a.cfg): 2 (empty)"]
    assert told("a = 1\n", "a  = 1\n") == ['1 line was changed around their values (a.cfg): 1 "a  = 1"']
