"""Bytes to Document: one pass over the lines, linear in size.

Line ends are LF, CRLF and CR only. ``str.splitlines`` also splits at form feeds and the like, and would bend texts.
"""

from __future__ import annotations

import re

from profilesmith.text.codec import Codec, decode
from profilesmith.text.delimiters import find_delimiter, find_newline
from profilesmith.text.document import DEFAULT_COMMENTS, Assignment, Document, Habits, Heading, Unread

_LINES = re.compile(r"[^\r\n]*(?:\r\n|\r|\n)|[^\r\n]+\Z")
_SAMPLE = 4000
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
    lines = _LINES.findall(text)
    comments = DEFAULT_COMMENTS if habits.comments is None else habits.comments
    delimiter = habits.delimiter or likely or find_delimiter(lines[:_SAMPLE], comments)
    walk = _Walk(text, comments, delimiter, habits)
    walk.run(lines)
    return Document(
        name=name,
        text=text,
        codec=codec,
        delimiter=delimiter,
        newline=find_newline(text),
        assignments=tuple(walk.assignments),
        headings=tuple(walk.headings),
        unread=tuple(walk.unread),
        first_ends=walk.first_ends,
    )


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
        self.assignments: list[Assignment] = []
        self.headings: list[Heading] = []
        self.unread: list[Unread] = []
        self.section = ""
        self.indent = -1  # of the assignment that a value may continue; -1 for none
        self.last_line = 0  # the line that the last value has come to, where it has gone on
        self.first_ends: dict[int, int] = {}

    def run(self, lines: list[str]) -> None:
        """All lines. What is plainly ``key = value`` at the left edge goes a short way: most lines of most texts."""
        offset, delimiter, marks = 0, self.delimiter, self.marks
        unusual = self.comment_heads + "[ \t\r\n\f\v" if delimiter != " " and not self.several else None
        add, new = self.assignments.append, tuple.__new__
        for number, line in enumerate(lines, 1):
            start = offset
            offset += len(line)
            key, found, rest = line.partition(delimiter)
            if not found or unusual is None or line[0] in unusual:
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
            # The plain tuple constructor: half the time of reading would be NamedTuple's own.
            add(new(Assignment, (number, self.section, head, begin, end)))
            self.indent = 0

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
        rest = cut + width
        value = line[rest:].strip()
        begin = start + (line.index(value, rest) if value else rest + (line[rest : rest + 1] == " "))
        length = self.uncommented(value) if any(mark in line for mark in self.marks) else len(value)
        self.assignments.append(Assignment(number, self.section, key, begin, begin + length))
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
        self.section = body[1:close].strip()
        end = start + line.index("]") + 1
        self.headings.append(Heading(number, self.section, end))
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
        return number - 1 in (self.assignments[-1].line, self.last_line)

    def slashed(self, number: int) -> bool:
        r"""Whether the line above is the last value's and ends in a ``\``."""
        last = self.assignments[-1]
        return self.follows(number) and last.end > last.start and self.text[last.end - 1] == "\\"

    def go_on(self, number: int, line: str, start: int) -> None:
        """The last value reaches to the end of this line."""
        last = self.assignments[-1]
        self.first_ends.setdefault(last.start, last.end)
        self.assignments[-1] = last._replace(end=start + len(line.rstrip()))
        self.last_line = number

    def keep(self, number: int, line: str, body: str, start: int) -> None:
        """An unread line."""
        begin = start + line.index(body)
        self.unread.append(Unread(number, begin, begin + len(body)))

    def otherwise(self, number: int, line: str, body: str, start: int) -> None:
        """A line without the usual delimiter: a continued value, the other delimiter, or unread."""
        if self.indent >= 0 and self.assignments and self.slashed(number):
            self.go_on(number, line, start)
            return
        key, found, value = body.partition(self.other) if self.other else (body, "", "")
        if found and re.fullmatch(r"[\w.\-\[\]]+(?: [\w.\-\[\]]+){0,4} ?", key) and not re.match(r"[GMT]\d", key):
            value = value.strip()
            begin = start + (line.rindex(value) if value else line.index(self.other) + 1)
            self.assignments.append(Assignment(number, self.section, key.strip(), begin, begin + len(value)))
            return
        self.keep(number, line, body, start)

    def uncommented(self, value: str) -> int:
        """The length of a value without the comment behind it."""
        at = _comment_at(value, self.comments, bool(self.habits.inline))
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


def _comment_at(value: str, comments: tuple[str, ...], inline: bool) -> int | None:
    """Where an inline comment begins: at the start or behind a blank, never inside quotes.

    inline: the map says that there are such comments. Without it a mark that begins the value and has no blank behind
    it is part of the value: ``#ff0000`` is a colour.
    """
    quote = ""
    for at, char in enumerate(value):
        if quote:
            quote = "" if char == quote else quote
        elif char in "\"'" and (at == 0 or value[at - 1] in " \t,"):
            quote = char
        elif (
            (at == 0 or value[at - 1] in " \t")
            and value.startswith(comments, at)
            and (at or inline or _spaced(value, comments))
        ):
            return at
    return None


def _spaced(value: str, comments: tuple[str, ...]) -> bool:
    """Whether a blank, or nothing, stands behind the mark that a value begins with."""
    mark = next(mark for mark in comments if mark and value.startswith(mark))
    return value[len(mark) : len(mark) + 1].strip() == ""
