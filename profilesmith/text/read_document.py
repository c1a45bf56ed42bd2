"""Bytes to Document: one pass over the lines, linear in size.

Line ends are LF, CRLF and CR only. ``str.splitlines`` also splits at form feeds and the like, and would bend texts.

What divides keys from values, and lines from one another, is found from the text where nobody says it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import islice

from profilesmith.text.codec import Codec, decode
from profilesmith.text.document import DEFAULT_COMMENTS, Document, Habits
from profilesmith.text.packed import Assignments, Headings, UnreadLines
from profilesmith.text.walk import Walk

PAIRS = (":=", "=>", "==", "::")


def find_delimiter(lines: list[str], comments: tuple[str, ...]) -> str:
    """Whichever of "=" and ":" comes first on more lines; with the sign that follows it on most of them."""
    equals = colons = 0
    pairs = dict.fromkeys(PAIRS, 0)
    for line in lines:
        body = line.lstrip()
        if not body or body.startswith((*comments, "[")):
            continue
        equal, colon = body.find("="), body.find(":")
        first = min(at for at in (equal, colon, len(body)) if at >= 0)
        if first and body[first : first + 2] in pairs:  # a line of signs divides nothing
            pairs[body[first : first + 2]] += 1
        if equal > 0 and (colon < 0 or equal < colon):
            equals += 1
        elif colon > 0:
            colons += 1
    best = max(pairs, key=lambda sides: pairs[sides])
    if pairs[best] * 2 > equals + colons:
        return best
    return ":" if colons > equals else "="


def find_newline(text: str) -> str:
    crlf = text.count("\r\n")
    counts = {"\n": text.count("\n") - crlf, "\r\n": crlf, "\r": text.count("\r") - crlf}
    best = max(counts, key=lambda newline: counts[newline])
    return best if counts[best] else "\n"


LINES = re.compile(r"[^\r\n]*(?:\r\n|\r|\n)|[^\r\n]+\Z")
LINE_END = re.compile(r"\r\n|\r|\n")
_SAMPLE = 4000
_PIECE = 4096  # signs of text whose lines are taken apart at a time


def read_document(
    raw: bytes, name: str = "", habits: Habits = Habits(), likely: str = "", before: Codec | None = None
) -> Document:
    """Read any bytes. name: for messages. habits: what the key map says of the text; the rest is detected.

    likely: the delimiter to be found where habits have none, for reading a text again after an edit; before: its codec.
    """
    text, codec = decode(raw, before)
    comments = DEFAULT_COMMENTS if habits.comments is None else habits.comments
    delimiter = habits.delimiter or likely or find_delimiter(_first_lines(text), comments)
    walk = Walk(text, comments, delimiter, habits)
    for lines in _pieces(text):
        walk.run(lines)
    headings = Headings(text, walk.headings)
    return Document(
        name=name,
        text=text,
        codec=codec,
        delimiter=delimiter,
        newline=find_newline(text),
        assignments=Assignments(text, walk.all_numbers(), headings),
        headings=headings,
        unread=UnreadLines(text, walk.unread),
        first_ends=walk.first_ends,
    )


def read_unless_same(raw: bytes, before: Document, habits: Habits) -> Document:
    """What bytes read as that stand in the place of a document: itself, where they are the very same."""
    if before.codec.encode(before.text) == raw:
        return before
    return read_document(raw, before.name, habits, before.delimiter)


def _first_lines(text: str) -> list[str]:
    return [match.group() for match in islice(LINES.finditer(text), _SAMPLE)]


def _pieces(text: str) -> Iterator[list[str]]:
    """All lines, some at a time: a line as a text of its own takes ten times what a short one says."""
    at = 0
    while at < len(text) and "\r" not in text:  # as mostly; in half the time
        end = text.find("\n", at + _PIECE) + 1 or len(text)
        *lines, last = text[at:end].split("\n")
        yield [*[f"{line}\n" for line in lines], *([last] if last else [])]
        at = end
    while at < len(text):
        match = LINE_END.search(text, at + _PIECE)
        end = match.end() if match else len(text)
        yield LINES.findall(text, at, end)
        at = end
