"""Spans are spliced, everything else is copied; a new key is written like its neighbours."""

from __future__ import annotations

import pytest

from profilesmith.text.document import Edit
from profilesmith.text.edit_document import edit_document, edit_text, insertion
from profilesmith.text.read_document import read_document


@pytest.mark.parametrize(
    ("edits", "text"),
    [
        ([], "abcdef"),
        ([Edit(0, 1, "X")], "Xbcdef"),
        ([Edit(5, 6, "")], "abcde"),
        ([Edit(4, 5, "Y"), Edit(1, 3, "long")], "alongdYf"),
        ([Edit(2, 2, "+")], "ab+cdef"),
        ([Edit(6, 6, "!")], "abcdef!"),
        ([Edit(2, 2, "1"), Edit(2, 4, "2")], "ab12ef"),
    ],
)
def test_edits_are_spliced_in_any_order(edits: list[Edit], text: str) -> None:
    assert edit_text("abcdef", edits) == text


@pytest.mark.parametrize(
    "edits", [[Edit(0, 3, "x"), Edit(2, 4, "y")], [Edit(5, 7, "x")], [Edit(3, 2, "x")], [Edit(-1, 1, "x")]]
)
def test_edits_that_overlap_or_leave_the_text_are_refused(edits: list[Edit]) -> None:
    with pytest.raises(ValueError, match="overlaps"):
        edit_text("abcdef", edits)


def test_a_letter_that_the_encoding_lacks_is_refused() -> None:
    document = read_document("grün = 1\n".encode("cp1252"), "f")
    item = document.assignments[0]
    with pytest.raises(UnicodeEncodeError):
        edit_document(document, [Edit(item.start, item.end, "高")])


@pytest.mark.parametrize(
    ("base", "section", "text"),
    [
        ("a = 1\n", "", "a = 1\nk = v\n"),
        ("a = 1", "", "a = 1\nk = v"),
        ("a=1\r\nb=2\r\n# end\r\n", "", "a=1\r\nb=2\r\nk=v\r\n# end\r\n"),
        ("a: 1\n", "", "a: 1\nk: v\n"),
        ("[s]\n  a\t=\t1 ; x\n[t]\nb = 2\n", "s", "[s]\n  a\t=\t1 ; x\n  k\t=\tv\n[t]\nb = 2\n"),
        ("[s]\n[t]\nb=2\n", "s", "[s]\nk=v\n[t]\nb=2\n"),
        ("a = 1\n", "new", "a = 1\n[new]\nk = v\n"),
        ("a = 1", "new", "a = 1\n[new]\nk = v"),
        ("# only words\n", "", "# only words\nk = v\n"),
        ("", "", "k = v\n"),
        ("a = 1\n  more\n  and more\nend = x\n", "", "a = 1\n  more\n  and more\nend = x\nk = v\n"),
        ("a = 1\rb = 2\r", "", "a = 1\rb = 2\rk = v\r"),
        ("a = G28\n    M104 S205\n", "", "a = G28\n    M104 S205\nk = v\n"),
        ("a =\n", "", "a =\nk =v\n"),
    ],
)
def test_a_key_is_added_below_its_neighbours(base: str, section: str, text: str) -> None:
    document = read_document(base.encode(), "f")
    edited = edit_document(document, [insertion(document, section, "k", "v")])
    assert edited.decode() == text
    again = read_document(edited, "f")
    added = [item for item in again.assignments if item.key == "k"]
    assert [(item.section, again.value(item)) for item in added] == [(section, "v")]
    assert len(again.assignments) == len(document.assignments) + 1


def test_a_key_outside_of_all_sections_where_the_text_has_only_sections() -> None:
    document = read_document(b"# sheet\n[s]\na = 1\n", "f")
    again = read_document(edit_document(document, [insertion(document, "", "k", "v")]), "f")
    assert [(item.section, item.key) for item in again.assignments if item.key == "k"] == [("", "k")]


@pytest.mark.parametrize("base", ["a = 1\n", "a = 1"])
def test_two_keys_of_a_new_section_share_its_heading(base: str) -> None:
    document = read_document(base.encode(), "f")
    edits = [insertion(document, "new", "k", "v"), insertion(document, "new", "l", "w", headed=True)]
    assert edit_document(document, edits).decode() == "a = 1\n[new]\nk = v\nl = w" + base[len("a = 1") :]


def test_a_new_section_leaves_a_missing_last_line_end_missing() -> None:
    """And its heading stands before all of its keys, whatever letters these begin with."""
    document = read_document(b"a = 1", "f")
    edits = [insertion(document, "new", "Key", "v"), insertion(document, "new", "Zone", "w", headed=True)]
    assert edit_document(document, edits) == b"a = 1\n[new]\nKey = v\nZone = w"
    ended = read_document(b"a = 1\n", "f")
    edits = [insertion(ended, "new", "Key", "v"), insertion(ended, "new", "Zone", "w", headed=True)]
    assert edit_document(ended, edits) == b"a = 1\n[new]\nKey = v\nZone = w\n"
