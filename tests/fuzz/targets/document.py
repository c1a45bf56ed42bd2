"""Any bytes as a settings text. Invariants: no edits give the same bytes; one edit changes its own span and nothing
else.
"""

from __future__ import annotations

from functools import cache
from itertools import pairwise
from pathlib import Path

from profilesmith.text.document import Document, Edit, Habits
from profilesmith.text.edit_document import edit_document, insertion
from profilesmith.text.read_document import read_document
from tests.fuzz.engine import Target

CASES = Path(__file__).parents[2] / "cases"
HABITS = (
    Habits(),
    Habits(delimiter=":"),
    Habits(delimiter=" "),
    Habits(comments=(), delimiter="="),
    Habits(inline=True),
    Habits(comments=("%", "--"), inline=False, delimiter=":="),
    Habits(delimiter="  ", others=("=", " 0"), headings=("== name ==", "name")),
    Habits(comments=("|",), inline=True, delimiter="|", headings=("name:",)),
    Habits(delimiter="=", others=(":", "->", ";", "\t"), comments=("(", "  "), inline=True, headings=("# name",)),
    Habits(delimiter=" ", next_key="  "),
    Habits(delimiter="=", next_key=";", headings=("name  left  right",)),
    Habits(delimiter="=", value_first=True, others=("..",)),
    Habits(lines=("{number} {value} TO {key} STOP", "{key};{value};{value};{any}", "- {key}:{value}")),
    Habits(headings=(".-- {number} -- name --.", "{number}. name")),
)


def behaviour(data: bytes) -> str:
    """The first byte chooses the habits, the rest is the text."""
    habits, raw = HABITS[data[0] % len(HABITS)] if data else Habits(), data[1:]
    document = read_document(raw, "text", habits)
    assert edit_document(document, []) == raw, "no edits, no change"
    ends = [(item.start, item.end) for item in document.assignments]
    assert all(0 <= start <= end <= len(document.text) for start, end in ends), "every span lies in the text"
    assert all(one[1] <= two[0] for one, two in pairwise(ends)), "spans do not overlap"
    if ends:
        _replaced(document, *ends[len(raw) % len(ends)])
        _inserted(document, habits)
    kinds = (len(document.assignments), len(document.headings), len(document.unread))
    return (
        f"{document.codec} {document.newline!r} {document.delimiter} "
        f"{[min(count, 4) for count in kinds]} {document.text[:2].isspace()}"
    )


def _replaced(document: Document, start: int, end: int) -> None:
    text = document.text
    new = edit_document(document, [Edit(start, end, "7")])
    # Surrogates that stood for stray bytes may meet differently at a seam, so the text is compared and not the bytes.
    assert new == document.codec.encode(f"{text[:start]}7{text[end:]}"), "one edit changes its own span"
    assert edit_document(document, [Edit(start, end, text[start:end])]) == document.codec.encode(text)


def _inserted(document: Document, habits: Habits) -> None:
    section = document.assignments[-1].section
    edit = insertion(document, section, "added", "7")
    assert edit.start == edit.end, "an insertion takes nothing away"
    after = read_document(edit_document(document, [edit]), "text", habits, document.delimiter)
    # A text of odd length behind a UTF-16 mark is none; one more byte can make it one. The audit refuses to write that.
    if after.codec == document.codec:
        assert len(after.text) == len(document.text) + len(edit.new)


@cache
def seeds() -> list[bytes]:
    texts = [
        path.read_bytes()
        for path in sorted(CASES.rglob("*"))
        if path.is_file() and path.stem in ("text", "base", "base1")
    ]
    return [bytes([number % len(HABITS)]) + text[:3000] for number, text in enumerate(texts)]


def tokens() -> list[bytes]:
    words = (
        "=",
        ":",
        ":=",
        "=>",
        "::",
        "==",
        " ",
        "\t",
        "[a]",
        "[",
        "]",
        "#",
        ";",
        "//",
        "\\\n",
        "\\",
        '"',
        "'",
        "M104 S210",
        "G1 X1",
        "\n  ",
        "\n\n",
        "key = 1\n",
        "\n[s]\n",
        "added",
        "°C",
        "²",
        "\u3000",
        "\u2028",
        "\x1c",
        "é",
        "\U0001f9f5",
        "=1=2",
        " ; note",
        "= # x",
        "\r",
        "\v",
        "\udc80",
    )
    return [word.encode("utf-8", "surrogatepass") for word in words] + [
        "x = 1\n".encode("utf-16"),
        b"\xe9",
        b"\x81",
        b"\x8f",
    ]


TARGET = Target("document", behaviour, seeds, tokens)
