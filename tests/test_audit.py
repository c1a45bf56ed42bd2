"""The audit must notice every way in which written bytes can say something else than the ledger.

Each test spoils one thing and expects the audit to name it; unspoiled bytes pass.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest

import profilesmith.audit as module
from profilesmith.audit import audit
from profilesmith.text.document import Edit
from profilesmith.text.edit_document import edit_document

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


def test_configparser_reads_what_it_can(read_text: ReadText) -> None:
    """The second reader is no decoration: it reads plain texts with and without sections."""
    for text in (BASE, "rim = 80\nply = 0.2\n", "# x\n[a]\nk = 1\n", "k = 1\r\nj = 2\r\n"):
        document = read_text(BINDINGS.replace("rim", "zz"), text).documents[0]
        entries = module._entries_in(document.text, module._configparser((document.delimiter,), document_habits()))
        assert entries is not None, text
        assert {key: value for (_, key), value in entries.items()} == {
            item.key: document.value(item) for item in document.assignments
        }


def document_habits() -> Any:
    from profilesmith.text.document import Habits

    return Habits()


def test_the_second_reader_notices_by_itself(change: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "_spans", lambda *given: [])
    monkeypatch.setattr(module, "_raw_entries", lambda *given: [])
    messages = found(change, change[2].replace(b"150", b"151"))
    assert any("second reader" in message and "'fly'" in message for message in messages)


def test_the_second_reader_must_read_what_we_read(change: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    """A key that a rule does name is no free pass: its new value must be the same for both readers."""
    ours = module._sole_value
    monkeypatch.setattr(module, "_sole_value", lambda *given: "4" if ours(*given) == "40" else ours(*given))
    assert any("a second reader reads 'rim' as '40', we as '4'" in message for message in found(change))


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
