"""Lines to assignments. Whole files stand under cases/round_trip; here are the single decisions."""

from __future__ import annotations

import pytest

import profilesmith.text.read_document as module
from profilesmith.text import walk
from profilesmith.text.document import Document, Habits
from profilesmith.text.read_document import read_document, read_unless_same


def entries(text: str, habits: Habits = Habits()) -> list[tuple[str, str, str]]:
    document = read_document(text.encode(), "f", habits)
    return [(item.section, item.key, document.value(item)) for item in document.assignments]


@pytest.mark.parametrize(
    ("line", "value"),
    [
        ("k = 1", "1"),
        ("k=1", "1"),
        ("k\t=\t1\t", "1"),
        ("k =  1  ", "1"),
        ("k = ", ""),
        ("k =", ""),
        ("k = a b", "a b"),
        ("k = 1 ; c", "1"),
        ("k = 1 # c", "1"),
        ("k = 1 // c", "1"),
        ("k = 1;c", "1;c"),
        ("k = a#b", "a#b"),
        ("k = ; c", ""),
        ("k = ;", ""),
        ("k = ;c", ";c"),
        ("k = #ff0000", "#ff0000"),
        ("k = 60 mm/s ; c", "60 mm/s"),
        ("k = 1,2,3 ; c", "1,2,3"),
        ("k = 210/60 # c", "210/60"),
        ("k = 'a ; b' ; c", "'a ; b'"),
        ('k = "a # b"', '"a # b"'),
        ("k = two words here ; kept", "two words here ; kept"),
        ("k = G28 ; home", "G28 ; home"),
    ],
)
def test_values_with_comments_where_nobody_says(line: str, value: str) -> None:
    assert entries(line) == [("", "k", value)]


@pytest.mark.parametrize(("inline", "value"), [(True, "two words here"), (False, "two words here ; kept")])
def test_inline_comments_where_the_map_says(inline: bool, value: str) -> None:
    assert entries("k = two words here ; kept\nj = 1 ; x", Habits(inline=inline)) == [
        ("", "k", value),
        ("", "j", "1" if inline else "1 ; x"),
    ]


def test_comment_signs_of_the_map_and_no_others() -> None:
    habits = Habits(comments=("!",), inline=True)
    assert entries("! a = 1\n# b = 2\nc = 3 ! x\nd = 4 # y\n", habits) == [
        ("", "# b", "2"),
        ("", "c", "3"),
        ("", "d", "4 # y"),
    ]


def test_no_comments_at_all() -> None:
    assert entries("# a = 1\n; b = 2 ; x\n", Habits(comments=())) == [("", "# a", "1"), ("", "; b", "2 ; x")]


@pytest.mark.parametrize(
    ("delimiter", "text", "pairs"),
    [
        (" ", "ply 0.2\nrim   60  \nnote two words\nalone\n", [("ply", "0.2"), ("rim", "60"), ("note", "two words")]),
        (":", "a: 1\nb = 2: 3\n", [("a", "1"), ("b = 2", "3")]),
        ("=", "a = 1\nb: 2\n", [("a", "1")]),
        (":=", "a := 1\nb = 2\nc :=\n", [("a", "1"), ("c", "")]),
        ("\t", "a b\t1\nc\t2\n", [("a b", "1"), ("c", "2")]),
    ],
)
def test_delimiters_of_the_map(delimiter: str, text: str, pairs: list[tuple[str, str]]) -> None:
    assert [(key, value) for _, key, value in entries(text, Habits(delimiter=delimiter))] == pairs


@pytest.mark.parametrize(
    ("text", "delimiter"),
    [
        ("a=1\n", "="),
        ("a: 1\n", ":"),
        ("", "="),
        ("a: b=1\nc: d=2\n", ":"),
        ("# a: 1\n# b: 2\nc=1\n", "="),
        ("[a:b]\nc=1\n", "="),
        ("a=1\nb:2\n", "="),
    ],
)
def test_the_delimiter_is_detected(text: str, delimiter: str) -> None:
    assert read_document(text.encode(), "f").delimiter == delimiter


@pytest.mark.parametrize(
    ("text", "section"),
    [
        ("[a]\nk=1", "a"),
        ("[ a b ]\nk=1", "a b"),
        ("[a.b/c]\nk=1", "a.b/c"),
        ("  [a]\nk=1", "a"),
        ("[a] # x\nk=1", "a"),
        ("[]\nk=1", ""),
        ("[a] x\nk=1", ""),
        ("[a\nk=1", ""),
    ],
)
def test_headings(text: str, section: str) -> None:
    assert ("" if section is None else section, "k", "1") in entries(text)


@pytest.mark.parametrize("remark", ["", "   ~ what fills it", "\t~ x"])
def test_a_name_with_a_colon_heads_a_part_whatever_is_said_behind_it(remark: str) -> None:
    habits = Habits(comments=("~",), inline=True, delimiter=":", headings=("name:",))
    text = f"skin:\n  pace: 3\n\ncore:{remark}\n  pace: 4\n"
    assert entries(text, habits) == [("skin", "pace", "3"), ("core", "pace", "4")]


def test_a_mark_right_behind_a_colon_heads_nothing() -> None:
    habits = Habits(comments=("~",), inline=True, delimiter=":", headings=("name:",))
    assert entries("skin:\n  pace:~ none\n  hue: 4\n", habits) == [("skin", "pace", ""), ("skin", "hue", "4")]


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("a = 1\n  2\n  3\nb = 4", ["1\n  2\n  3", "4"]),
        ("a =\n  1\n  2\n", ["\n  1\n  2"]),
        ("  a = 1\n    2\n  b = 3\n", ["1\n    2", "3"]),
        ("a = 1 \\\n2\nb = 3", ["1 \\\n2", "3"]),
        ("a = 1\\\n2\\\n3\n", ["1\\\n2\\\n3"]),
        ("a = 1\n  b = 2\n", ["1", "2"]),
        ("a = x\n  M104 S205\n  M117 t = 3\n", ["x\n  M104 S205\n  M117 t = 3"]),
    ],
)
def test_continued_values(text: str, values: list[str]) -> None:
    assert [value.lstrip(" ") for _, _, value in entries(text)] == values


@pytest.mark.parametrize(
    ("text", "values", "unread"),
    [
        pytest.param("a = 1\n# x\n  2\nb = 3", ["1", "3"], ["2"], id="a remark"),
        pytest.param("a = 1\n\n  2\nb = 3", ["1", "3"], ["2"], id="a blank line"),
        pytest.param("a = 1\n---\n  2\nb = 3", ["1", "3"], ["---", "2"], id="an unread line"),
        pytest.param("a =\n\n  2\nb = 3", ["", "3"], ["2"], id="nothing, and a blank line"),
        pytest.param("a = x\n  y\n  # remark\n  z\n", ["x\n  y"], ["z"], id="a remark in a block"),
        pytest.param("a = x\n# r\n  M117 t = 3\n", ["x"], ["M117 t = 3"], id="no setting comes of a cut-off line"),
        pytest.param("a = x \\\n\n  y\n", ["x \\"], ["y"], id="a backslash before a blank line"),
        pytest.param("a = x \\\n# r\ny\n", ["x \\"], ["y"], id="a backslash before a remark"),
    ],
)
def test_a_value_ends_at_what_does_not_follow_directly(text: str, values: list[str], unread: list[str]) -> None:
    document = read_document(text.encode(), "f")
    assert [document.value(item) for item in document.assignments] == values
    assert [document.text[item.start : item.end] for item in document.unread] == unread


@pytest.mark.parametrize(
    ("text", "first"),
    [
        ("a = grid\n  more\n", "grid"),
        ("a = grid ; remark\n  more\n", "grid"),
        ("a =\n  grid\n", "\n  grid"),
        ("a = \\\n  grid\n", "\\\n  grid"),
        ("a = grid\n# r\n  more\n", "grid"),
    ],
)
def test_the_first_line_of_a_value(text: str, first: str) -> None:
    document = read_document(text.encode(), "f")
    assert document.first_line(document.assignments[0]) == first


def test_a_heading_ends_a_continued_value() -> None:
    assert entries("a = 1\n[s]\n  rest\n") == [("", "a", "1")]


@pytest.mark.parametrize(
    ("raw", "newline"),
    [(b"a=1\n", "\n"), (b"a=1\r\n", "\r\n"), (b"a=1\r", "\r"), (b"a=1", "\n"), (b"a=1\r\nb=2\r\nc=3\n", "\r\n")],
)
def test_the_line_end_most_used(raw: bytes, newline: str) -> None:
    assert read_document(raw, "f").newline == newline


def test_lines_are_counted_as_people_count() -> None:
    document = read_document(b"a=1\r\nb=2\rc=3\n\nd=4\x0ce=5\n", "f")
    assert [item.line for item in document.assignments] == [1, 2, 3, 5]
    assert [document.line_at(item.start) for item in document.assignments] == [1, 2, 3, 5]


def spans_hold(document: Document) -> None:
    """No assignment reaches into another, and each ends before its line's end."""
    at = 0
    for item in document.assignments:
        assert at <= item.start <= item.end <= len(document.text)
        assert document.value(item) == document.value(item).strip(" \t\r\n") or not document.value(item).strip()
        at = item.end


@pytest.mark.parametrize(
    "text",
    [
        "a=1\nb = 2 \n[s]\n c: 3\n d\n",
        "a\\\n=1\n",
        "=1\n:\n=\n",
        "[[a]]\n]\n[\n",
        "a = '\n' = b\n",
        "\ta=\t\n\tb\n",
        "\x0b=\x0c\n",
    ],
)
@pytest.mark.parametrize("delimiter", [None, "=", ":", " "])
def test_spans_never_overlap(text: str, delimiter: str | None) -> None:
    spans_hold(read_document(text.encode(), "f", Habits(delimiter=delimiter)))


class Counting(str):
    """A text that counts the characters that are copied out of it."""

    copied = 0

    def __getitem__(self, at: object) -> str:  # type: ignore[override]
        piece = str.__getitem__(self, at)  # type: ignore[index]
        Counting.copied += len(piece)
        return piece


def copied(raw: bytes, monkeypatch: pytest.MonkeyPatch) -> int:
    """How many characters reading copies out of the whole text."""
    real = module.decode

    def decode(given: bytes, before: object = None) -> object:
        text, codec = real(given)
        return Counting(text), codec

    monkeypatch.setattr(module, "decode", decode)
    Counting.copied = 0
    read_document(raw, "f")
    monkeypatch.setattr(module, "decode", real)
    return Counting.copied


def test_a_value_of_five_megabytes_is_read_in_one_pass(monkeypatch: pytest.MonkeyPatch) -> None:
    """Counted, not timed: nothing is copied for each character, and the comment in it is looked for once."""
    calls = 0
    real = walk.comment_at

    def counted(*given: object) -> object:
        nonlocal calls
        calls += 1
        return real(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(walk, "comment_at", counted)
    raw = f'start = "{"x" * 5_000_000}"\nrim = 60 ; slow\n'.encode()
    document = read_document(raw, "f")
    assert [len(document.value(item)) for item in document.assignments] == [5_000_002, 2]
    assert calls <= 2
    assert copied(raw, monkeypatch) <= 2 * len(raw)


@pytest.mark.parametrize(
    "line",
    [
        pytest.param(b"rim = 60 ; x\n", id="plain"),
        pytest.param(b"    G1 X1 Y1\n", id="indented"),
        pytest.param(b"rest \\\n", id="backslash"),
    ],
)
def test_reading_is_linear_in_the_lines(line: bytes, monkeypatch: pytest.MonkeyPatch) -> None:
    """Counted, not timed: no more than a few characters are copied for each character of the text."""
    raw = b"start = G28 \\\n" + line * 2000
    assert copied(raw, monkeypatch) <= 4 * len(raw)


@pytest.mark.parametrize(
    ("line", "value"),
    [
        ("v = 75 % of core.v", "75 % of core.v"),
        ("v = 75 % von v_2   % lang", "75 % von v_2"),
        ("v = 16 %", "16 %"),
        ("v = 16 %    % how deep", "16 %"),
        ("v = 16 % how deep", "16"),
        ("v = 16 % often met", "16"),
        ("v = x % of all", "x"),
    ],
)
def test_a_sign_that_begins_remarks_is_per_cent_behind_a_number(line: str, value: str) -> None:
    assert entries(line, Habits(comments=("%",), inline=True)) == [("", "v", value)]


@pytest.mark.parametrize("raw", [b"a = 1\n", b"a = 2\n", b"\xef\xbb\xbfa = 1\n", b""])
def test_what_is_the_same_is_not_read_again(raw: bytes) -> None:
    before = read_document(b"a = 1\n", "old.cfg")
    now = read_unless_same(raw, before, Habits())
    assert (now is before) == (raw == b"a = 1\n")
    assert now.codec.encode(now.text) == raw
    assert now.name == "old.cfg"
