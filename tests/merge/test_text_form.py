"""A text that a hand saved in another form: one note each, and not a hundred edits."""

from __future__ import annotations

import pytest

from profilesmith.ledger.history import ENCODING, LAST_LINE_END, LINE_ENDS
from profilesmith.merge.text_form import form_changes
from profilesmith.text.read_document import read_document


@pytest.mark.parametrize(
    ("old", "mine", "changes"),
    [
        (b"a = 1\nb = 2\n", b"a = 2\nb = 2\n", []),
        (b"a = 1\nb = 2\n", b"a = 1\r\nb = 2\r\n", [(LINE_ENDS, "LF", "CRLF")]),
        (b"a = 1\r\nb = 2\r\n", b"a = 1\nb = 2\n", [(LINE_ENDS, "CRLF", "LF")]),
        (b"a = 1\nb = 2\n", b"a = 1\rb = 2\r", [(LINE_ENDS, "LF", "CR")]),
        (b"a = 1\nb = 2\n", b"a = 1\r\nb = 2\n", [(LINE_ENDS, "LF", "CRLF and LF")]),
        (b"a = 1\nb = 2\n", b"a = 1\nb = 2", [(LAST_LINE_END, "there", "missing")]),
        (b"a = 1\nb = 2", b"a = 1\nb = 2\n", [(LAST_LINE_END, "missing", "there")]),
        (b"a = 1", b"a = 1\n", [(LAST_LINE_END, "missing", "there")]),  # a text of one line has no other ends
        (b"", b"a = 1\n", []),
        (b"a = 1\n", b"", []),
        (b"a = 1\n", b"\xef\xbb\xbfa = 1\n", [(ENCODING, "utf-8", "utf-8 with a byte order mark")]),
        ("ä = 1\n".encode(), "ä = 1\n".encode("latin-1"), [(ENCODING, "utf-8", "latin-1")]),
        (b"a = 1\n", "ä = 1\n".encode("latin-1"), []),  # plain ASCII is the same in most encodings
    ],
)
def test_each_change_of_form_is_named_once(old: bytes, mine: bytes, changes: list[tuple[str, str, str]]) -> None:
    documents = [read_document(raw, f"{name}.cfg") for raw, name in ((old, "old"), (mine, "mine"))]
    decisions = list(form_changes(*documents))
    assert [item.what for item in decisions] == [what for what, _, _ in changes]
    for item, (what, was, hand) in zip(decisions, changes, strict=True):
        assert (item.kind, item.outcome, item.file) == ("line", "left out", "mine.cfg")
        if what != ENCODING:
            assert (item.was, item.hand) == (was, hand)
        else:
            assert item.was != item.hand
