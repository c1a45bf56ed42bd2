"""The audit must notice every way in which written bytes can say something else than the ledger.

Each test spoils one thing and expects the audit to name it; unspoiled bytes pass.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

import profilesmith.audit as module
from profilesmith.audit import audit
from profilesmith.foundation.problem import Problem
from profilesmith.text.document import Assignment, Document, Edit, Habits, line_ends
from profilesmith.text.edit_document import edit_document
from profilesmith.text.read_document import read_document
from profilesmith.text.second_reader import SecondReader
from profilesmith.translation.load_key_map import load_key_map
from profilesmith.vocabulary.setting import Vocabulary

ReadText = Callable[..., Any]
BASE = "[s]\nrim = 80\nply = 0.2\nfly = 150\nnote = keep\n"
BINDINGS = (
    '[[binding]]\nsetting = "outer_wall.speed"\nkey = "rim"\n[[binding]]\nsetting = "layer.height"\nkey = "ply"\n'
)


@pytest.fixture
def change(read_text: ReadText) -> tuple[Any, list[Edit], bytes, Any]:
    """A right change of rim to 40: translation, edits, bytes and derived profile."""
    translation = read_text(BINDINGS, BASE)
    at = BASE.index("80")
    edits = [Edit(at, at + 2, "40")]
    entry = translation.profile.entries["outer_wall.speed"]
    entries = {**translation.profile.entries, "outer_wall.speed": entry._replace(values=(Fraction(40),))}
    return (
        translation,
        edits,
        edit_document(translation.documents[0], edits),
        translation.profile._replace(entries=entries),
    )


def found(
    change: tuple[Any, list[Edit], bytes, Any], raw: bytes | None = None, edits: list[Edit] | None = None
) -> list[str]:
    translation, right, written, derived = change
    changes, raws = right if edits is None else edits, written if raw is None else raw
    problems = audit(translation, [changes], [raws], derived)
    assert all((problem.code, problem.severity) == ("audit", 3) for problem in problems)
    return [problem.message for problem in problems]


def test_right_bytes_pass(change: Any) -> None:
    assert found(change) == []


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (b"fly = 150", b"fly = 151"),
        (b"note = keep", b"note = kept"),
        (b"[s]", b"[t]"),
        (b"keep\n", b"keep"),
        (b"keep\n", b"keep\r\n"),
        (b"ply = 0.2", b"ply = 0.20"),
        (b"ply = ", b"ply  = "),
        (b"note = keep\n", b""),
        (b"keep\n", b"keep\nmore = 1\n"),
        (b"rim = 40", b"rim = 41"),
    ],
)
def test_any_other_byte_is_noticed(old: bytes, new: bytes, change: Any) -> None:
    assert old in change[2]
    assert found(change, change[2].replace(old, new)) != []


def test_a_value_that_reads_as_another_one(change: Any) -> None:
    """The bytes are those of the edit, but they do not say what the derived profile says."""
    translation, edits, _, _ = change
    wrong = [edits[0]._replace(new="45")]
    messages = found(change, edit_document(translation.documents[0], wrong), wrong)
    assert any("outer_wall.speed should read" in message for message in messages)


def test_a_change_that_no_rule_names_is_told_with_its_key(change: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    """Of the raw entries alone: the look at the spans is switched off."""
    monkeypatch.setattr(module, "_spans", lambda *given: [])
    monkeypatch.setattr(module, "_second_reader", lambda *given: [])
    assert any("'fly'" in message for message in found(change, change[2].replace(b"150", b"151")))


def test_the_second_reader_notices_by_itself(change: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "_spans", lambda *given: [])
    monkeypatch.setattr(module, "_raw_entries", lambda *given: [])
    messages = found(change, change[2].replace(b"150", b"151"))
    assert any("second reader" in message and "'fly'" in message for message in messages)


def test_the_second_reader_must_read_what_we_read(change: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    """A key that a rule does name is no free pass: its new value must be the same for both readers."""
    misread(monkeypatch, "40", "4")
    assert any("a second reader reads 'rim' as '40', we 'rim' as '4'" in message for message in found(change))


def misread(monkeypatch: pytest.MonkeyPatch, right: str, wrong: str) -> None:
    """Spoils our own reader: one value as another."""
    read = Document.value

    def spoilt(self: Document, assignment: Assignment) -> str:
        value = read(self, assignment)
        return wrong if value == right else value

    monkeypatch.setattr(Document, "value", spoilt)


# Each lays a text out in another way, with what a map says of it; "rim" is changed from 80 to 40.
LAYOUTS = {
    "signs of several sorts": ('delimiter = ["=", ":"]', "ply: 0.2\nrim = 80\n"),
    "columns": ('delimiter = "  "', "ply   0.2\nrim   80\n"),
    "columns by tabs": ('delimiter = "  "', "ply\t0.2\nrim\t80\n"),
    "a table": ('delimiter = "|"\ncomments = ["|--"]', "ply | 0.2\nrim | 80\n"),
    "an arrow": ('delimiter = "->"', "ply -> 0.2\nrim -> 80\n"),
    "blanks": ('delimiter = " "', "ply 0.2\nrim 80\n"),
    "remarks behind values": ("inline_comments = true", "ply = 0.2 # fine\nrim = 80 # slow\n"),
    "headings of another form": ('headings = ["== name =="]', "== walls ==\nply = 0.2\nrim = 80\n"),
    "a key twice": ('duplicates = "last"', "rim = 90\nply = 0.2\nrim = 80\n"),
    "a line that divides nowhere": ("", "only words\nply = 0.2\nrim = 80\n"),
    "a heading and more": ("", "[walls] of the part\nply = 0.2\nrim = 80\n"),
}


@pytest.mark.parametrize("layout", LAYOUTS)
def test_the_second_reader_has_an_opinion_on_every_layout_that_it_can_divide(
    layout: str, read_text: ReadText, monkeypatch: pytest.MonkeyPatch
) -> None:
    habits, text = LAYOUTS[layout]
    translation = read_text(f"[text]\n{habits}\n{BINDINGS}", text)
    at = text.index("80")
    edits = [Edit(at, at + 2, "40")]
    written = edit_document(translation.documents[0], edits)
    entry = translation.profile.entries["outer_wall.speed"]
    entries = {**translation.profile.entries, "outer_wall.speed": entry._replace(values=(Fraction(40),))}
    right = translation, edits, written, translation.profile._replace(entries=entries)
    assert found(right) == []
    misread(monkeypatch, "40", "4")
    assert any("a second reader reads 'rim' as '40', we 'rim' as '4'" in message for message in found(right))


# Lines that it divides otherwise than the map says: the key ``rim``, and another one of its own beside it.
DIVIDED_OTHERWISE = {
    "a heading that is none": ("", "[a] = 1\nrim = 80\n[a]\nrim = 80\n"),
    "a sign of a key": ('delimiter = ["->", "-"]', "ply-h -> 0.2\nrim-w -> 80\nply -> 0.2\nrim -> 80\n"),
    "the value before its key": ('delimiter = "="\nvalue_first = true', "0.2 = ply\n80 = rim\nrim = rim\n"),
    "the number ends the line": ('delimiter = " 0"', "ply of all layers 0.2\nrim 80\n"),
    "several keys in a line": ('delimiter = "="\nnext_key = ","', "ply = 0.2, rim = 80\n"),
    "a remark that the map does not name": ("", "ply = 0.2\nrim = 80 # = 80\n"),
}


@pytest.mark.parametrize("layout", DIVIDED_OTHERWISE)
def test_lines_that_the_second_reader_divides_otherwise_are_no_fault(layout: str, read_text: ReadText) -> None:
    of_text, text = DIVIDED_OTHERWISE[layout]
    translation = read_text(f"[text]\nduplicates = 'last'\n{of_text}\n{BINDINGS}", text)
    document, habits = translation.documents[0], translation.key_map.habits
    rims = [item for item in document.assignments if item.key == "rim"]
    assert rims
    for item in rims:
        written = edit_document(document, [Edit(item.start, item.end, "40")])
        new = read_document(written, document.name, habits, document.delimiter, document.codec)
        names, reader = {(item.section, item.key)}, SecondReader(document.delimiter, habits)
        assert module._second_reader(document, new, module._matched(document, new), names, reader) == []


def test_a_text_that_the_second_reader_cannot_read_is_no_fault(read_text: ReadText) -> None:
    text = "rim = 80\nply = 0.2\nwords without a sign\nrim2 = 1\n"
    translation = read_text(BINDINGS, text)
    at = text.index("80")
    edits = [Edit(at, at + 2, "80")]
    raw = edit_document(translation.documents[0], edits)
    assert audit(translation, [edits], [raw], translation.profile) == []


def test_an_edit_that_takes_lines_along_is_noticed(read_text: ReadText) -> None:
    """Whatever the readers make of it: no value that a map can bind goes over a line end."""
    text = "core = grid\n  a block\n  below it\nfly = 150\n"
    translation = read_text('[[binding]]\nsetting = "infill.pattern"\nkey = "core"\n', text)
    start, end = text.index("grid"), text.index("\nfly")
    edits = [Edit(start, end, "gyroid")]
    entry = translation.profile.entries["infill.pattern"]
    derived = translation.profile._replace(entries={"infill.pattern": entry._replace(values=("gyroid",))})
    raw = edit_document(translation.documents[0], edits)
    problems = audit(translation, [edits], [raw], derived)
    assert [problem.message for problem in problems] == [
        "The new text does not say what the ledger says: line 1 would lose its line end."
    ]


@pytest.mark.parametrize(
    ("before", "after"),
    [
        (["[s]", "a = 1", "  go on", "b = 2"], ["[s]", "a = 1", "go = on", "b = 2"]),  # a value lost its end
        (["[s]", "a = 1", "go = on", "b = 2"], ["[s]", "a = 1", "  go on", "b = 2"]),  # and took the next line
        (["[s]", "a = 1", "\tgo on", "b = 2"], ["[s]", "a = 1", "go = on", "b = 2"]),
        (["[s]", "a = 1", "go = on", "b = 2"], ["[s]", "a = 1", "", "b = 2"]),
    ],
)
def test_a_line_that_becomes_a_part_of_the_entry_above_or_stops_being_one_is_read_with_it(
    before: list[str], after: list[str]
) -> None:
    """Alone, such a line would be no line of any entry, and the second reader would have nothing to say."""
    assert module._entries_of([2], before, after) == [0, 1, 2]
    assert module._entries_of([1], before, after) == [0, 1, 2]
    assert module._entries_of([3], before, after) == [0, 3]


CASES = Path(__file__).parent / "cases"
MAPPED = [
    folder
    for kind in ("derive", "dialects/tuned", "dialects/held_out")
    for folder in sorted((CASES / kind).iterdir())
    if (folder / "map.toml").exists()
]


def test_the_second_reader_has_an_opinion_on_nearly_every_line_of_the_cases(vocabulary: Vocabulary) -> None:
    """In every seventh line our reader is spoilt, and the second one notices: 99 of 100 times when it was written."""
    noticed = looked_at = 0
    for folder in MAPPED:
        key_map, problems = load_key_map((folder / "map.toml").read_bytes(), "map.toml", vocabulary)
        assert key_map is not None, problems
        base = next(path for path in sorted(folder.iterdir()) if path.stem.startswith("base"))
        old = read_document(base.read_bytes(), base.name, key_map.habits)
        items = [item for item in old.assignments if old.value(item)]
        for item in items[:: 7 if len(items) > 7 else 1]:
            if not line_ends(old.value(item)):
                right, spoilt = both_opinions(old, item, key_map.habits)
                assert right == [], (folder.name, item)
                looked_at, noticed = looked_at + 1, noticed + bool(spoilt)
    assert looked_at > 300
    assert noticed / looked_at >= 0.98, (noticed, looked_at)


def both_opinions(old: Document, item: Assignment, habits: Habits) -> tuple[list[Problem], list[Problem]]:
    """Of the second reader on one changed value: where we read it right, and where we read it wrong."""
    written = edit_document(old, [Edit(item.start, item.end, old.value(item) + "7")])
    new = read_document(written, old.name, habits, old.delimiter, old.codec)
    matched = module._matched(old, new)
    wrong = [(was, now and now._replace(end=now.end - 1)) if was is item else (was, now) for was, now in matched.both]
    right, spoilt = (
        module._second_reader(
            old, new, matched._replace(both=both), {(item.section, item.key)}, SecondReader(old.delimiter, habits)
        )
        for both in (matched.both, wrong)
    )
    return right, spoilt
