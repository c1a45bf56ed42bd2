"""Bytes to Document: one pass over the lines, linear in size.

Line ends are LF, CRLF and CR only. ``str.splitlines`` also splits at form feeds and the like, and would bend texts.
"""

from __future__ import annotations

import re
from array import array
from collections.abc import Iterator
from itertools import islice

from profilesmith.text.codec import Codec, decode
from profilesmith.text.delimiters import find_delimiter, find_newline
from profilesmith.text.document import DEFAULT_COMMENTS, Document, Habits
from profilesmith.text.first_ends import FirstEnds, numbers_of
from profilesmith.text.inline_comments import comment_at
from profilesmith.text.packed import Assignments, Headings, UnreadLines

_LINES = re.compile(r"[^\r\n]*(?:\r\n|\r|\n)|[^\r\n]+\Z")
_END = re.compile(r"\r\n|\r|\n")
_SAMPLE = 4000
_PIECE = 4096  # signs of text whose lines are taken apart at a time
# A key: words, dots, brackets; but no machine command such as "M117 x = 3" in a continued start block.
_KEY_LIKE = re.compile(r"(?![GMTgmt]\d)[^\s;#/][^;#]{0,120}\Z")
_BARE_HEAD = re.compile(r"(?![GMTgmt]\d+(?:\s|\Z))(?:[-+\w.,%/°²³]+(?:[ \t][\w%/°²³]+)?|\"[^\"]*\"|'[^']*')?\Z")


def read_document(
    raw: bytes, name: str = "", habits: Habits = Habits(), likely: str = "", before: Codec | None = None
) -> Document:
    """Read any bytes. name: for messages. habits: what the key map says of the text; the rest is detected.

    likely: the delimiter to be found where habits have none, for reading a text again after an edit; before: its codec.
    """
    text, codec = decode(raw, before)
    comments = DEFAULT_COMMENTS if habits.comments is None else habits.comments
    delimiter = habits.delimiter or likely or find_delimiter(_first_lines(text), comments)
    walk = _Walk(text, comments, delimiter, habits)
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


def _first_lines(text: str) -> list[str]:
    return [match.group() for match in islice(_LINES.finditer(text), _SAMPLE)]


def _pieces(text: str) -> Iterator[list[str]]:
    """All lines, some at a time: a line as a text of its own takes ten times what a short one says."""
    at = 0
    while at < len(text):
        match = _END.search(text, at + _PIECE)
        end = match.end() if match else len(text)
        yield _LINES.findall(text, at, end)
        at = end


# Where the last assignment's line, value's start and value's end stand in the numbers so far.
_LINE, _START, _STOP = -5, -2, -1


class _Walk:
    """The state of one pass: where we are, and what the last assignment was (a value may go on below it)."""

    def __init__(self, text: str, comments: tuple[str, ...], delimiter: str, habits: Habits) -> None:
        self.text, self.comments, self.delimiter, self.habits = text, comments, delimiter, habits
        self.other = {"=": ":", ":": "="}.get(delimiter, "") if habits.delimiter is None else ""
        self.several = habits.delimiters if habits.others else ()
        self.comment_heads = "".join({comment[0] for comment in comments if comment})
        marks = (f"{blank}{comment}" for comment in comments if comment for blank in " \t=:")
        # Only what occurs in the text at all is looked for in each of its lines.
        self.marks = () if habits.inline is False else tuple(mark for mark in marks if mark in text)
        self.numbers, self.last = numbers_of(text), list[int]()  # of assignments, and of the last one
        self.headings, self.unread = numbers_of(text), numbers_of(text)
        self.indent = -1  # of the assignment that a value may continue; -1 for none
        self.last_line = 0  # the line that the last value has come to, where it has gone on
        self.first_ends = FirstEnds(text)
        self.number, self.offset = 0, 0  # of lines and signs behind us

    def run(self, lines: list[str]) -> None:
        """The next lines. What is plainly ``key = value`` at the left edge goes a short way: most lines do."""
        offset, delimiter, marks = self.offset, self.delimiter, self.marks
        unusual = self.comment_heads + "[ \t\r\n\f\v" if delimiter != " " and not self.several else None
        for number, line in enumerate(lines, self.number + 1):
            start = offset
            offset += len(line)
            key, sign, rest = line.partition(delimiter)
            if not sign or unusual is None or line[0] in unusual:
                self.slowly(number, line, start)
                continue
            head = key.rstrip()
            tail = rest.lstrip()
            value = tail.rstrip()
            if not head or not value:
                self.slowly(number, line, start)
                continue
            begin = offset - len(tail)
            end = begin + len(value)
            for mark in marks:
                if mark in line:
                    end = begin + self.uncommented(value)
                    break
            self.last += (number, start, start + len(head), begin, end)
            self.indent = 0
        self.number += len(lines)
        self.offset = offset
        self.put_away()

    def put_away(self, but: int = 5) -> None:
        """Numbers of assignments to where they take little; those of the last one may change yet."""
        done = len(self.last) - but
        self.numbers.fromlist(self.last[:done])
        del self.last[:done]

    def all_numbers(self) -> array[int]:
        """Of all assignments."""
        self.put_away(0)
        return self.numbers

    def slowly(self, number: int, line: str, start: int) -> None:
        """Any line at all."""
        body = line.strip()
        if not body or ((body[0] in self.comment_heads or body[0] == "[") and self.special(number, line, body, start)):
            return
        indented = line[0] in " \t"
        if indented and self.indent >= 0 and self.continues(number, line, body, start):
            return
        cut, width = self.cut(line, body)
        key = line[:cut].strip() if cut > 0 else ""
        if not key:
            self.otherwise(number, line, body, start)
            return
        named = start + line.index(key)
        rest = cut + width
        value = line[rest:].strip()
        begin = start + (line.index(value, rest) if value else rest + (line[rest : rest + 1] == " "))
        length = self.uncommented(value) if any(mark in line for mark in self.marks) else len(value)
        self.last += (number, named, named + len(key), begin, begin + length)
        self.indent = len(line) - len(line.lstrip()) if indented else 0

    def cut(self, line: str, body: str) -> tuple[int, int]:
        """Where a line's delimiter stands, -1 for none, and how long it is; of several the first in the line."""
        signs = [sign for sign in self.several or (self.delimiter,) if sign != " "]
        there = [(line.find(sign), -len(sign)) for sign in signs if sign in line]
        if there:
            at, length = min(there)
            return at, -length
        blank = (not self.several and self.delimiter == " ") or " " in self.several
        return (_blank_cut(line, body), 1) if blank else (-1, 0)

    def special(self, number: int, line: str, body: str, start: int) -> bool:
        """A comment or a heading; False when the line is something else after all."""
        if body.startswith(self.comments):
            return True
        if body[0] != "[":
            return False
        close = body.find("]")
        rest = body[close + 1 :].lstrip()
        if close < 2 or (rest and not rest.startswith(self.comments)):
            return False
        name = body[1:close].strip()
        end = start + line.index("]") + 1
        begin = start + line.index(name, line.index("[") + 1)
        self.headings.extend((number, begin, begin + len(name), end))
        self.indent = -1
        return True

    def continues(self, number: int, line: str, body: str, start: int) -> bool:
        """Whether an indented line belongs to the value above it: that value's span grows, if it stands right below.

        What is cut off from its value, by a remark, a blank or an unread line, is kept as unread: no setting of its
        own.
        """
        deeper = len(line) - len(line.lstrip()) > self.indent
        at, _ = self.cut(body, body)
        assignment_like = at >= 0 and bool(_KEY_LIKE.match(body[:at].rstrip()))
        if assignment_like or not (deeper or self.slashed(number)):
            return False
        if self.follows(number):
            self.go_on(number, line, start)
        else:
            self.keep(number, line, body, start)
        return True

    def follows(self, number: int) -> bool:
        """Whether a line stands right below what the last value has come to."""
        return number - 1 in (self.last[_LINE], self.last_line)

    def slashed(self, number: int) -> bool:
        r"""Whether the line above is the last value's and ends in a ``\``."""
        start, end = self.last[_START], self.last[_STOP]
        return self.follows(number) and end > start and self.text[end - 1] == "\\"

    def go_on(self, number: int, line: str, start: int) -> None:
        """The last value reaches to the end of this line."""
        self.first_ends.add(self.last[_START], self.last[_STOP])
        self.last[_STOP] = start + len(line.rstrip())
        self.last_line = number

    def keep(self, number: int, line: str, body: str, start: int) -> None:
        """An unread line."""
        begin = start + line.index(body)
        self.unread.extend((number, begin, begin + len(body)))

    def otherwise(self, number: int, line: str, body: str, start: int) -> None:
        """A line without the usual delimiter: a continued value, the other delimiter, or unread."""
        if self.indent >= 0 and self.last and self.slashed(number):
            self.go_on(number, line, start)
            return
        key, sign, value = body.partition(self.other) if self.other else (body, "", "")
        if sign and re.fullmatch(r"[\w.\-\[\]]+(?: [\w.\-\[\]]+){0,4} ?", key) and not re.match(r"[GMT]\d", key):
            value = value.strip()
            begin = start + (line.rindex(value) if value else line.index(self.other) + 1)
            key = key.strip()
            named = start + line.index(key)
            self.last += (number, named, named + len(key), begin, begin + len(value))
            return
        self.keep(number, line, body, start)

    def uncommented(self, value: str) -> int:
        """The length of a value without the comment behind it."""
        at = comment_at(value, self.comments, bool(self.habits.inline))
        if at is None:
            return len(value)
        head = value[:at].rstrip()
        # Where the map does not say, only a comment behind a single word or number is taken for one.
        return len(head) if self.habits.inline or _BARE_HEAD.match(head) else len(value)


def _blank_cut(line: str, body: str) -> int:
    """The offset of the first blank behind the first word, for texts whose delimiter is a run of blanks."""
    word = body.split(None, 1)[0]
    end = line.index(word) + len(word)
    return end if end < len(line.rstrip("\r\n")) else -1
