"""Document: a settings text kept whole, and the spans in it that can be read.

Nothing is ever re-written from parts: the text *is* the document, assignments only point into it, and an edit
replaces a span. What was not understood is therefore safe by construction.

Where values that go on below their line end in it: two numbers each, however many there are.
"""

from array import array
from bisect import bisect_left
from collections.abc import Sequence

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.text.codec import Codec


def numbers_of(text: str) -> "array[int]":
    """An empty array whose numbers can say any place in a text."""
    return array("I" if len(text) < 1 << 32 else "Q")


class FirstEnds:
    """Where values that go on in further lines end in their first one, by where they start: eight bytes each."""

    def __init__(self, text: str) -> None:
        self.starts, self.ends = numbers_of(text), numbers_of(text)

    def add(self, start: int, end: int) -> None:
        """The first end of a value, which counts; values come in the order of the text."""
        if not self.starts or self.starts[-1] != start:
            self.starts.append(start)
            self.ends.append(end)

    def get(self, start: int, otherwise: int) -> int:
        if not self.starts:
            return otherwise
        at = bisect_left(self.starts, start)
        return self.ends[at] if at < len(self.starts) and self.starts[at] == start else otherwise


DEFAULT_COMMENTS = ("#", ";", "//")


class Habits(NamedTuple):
    """How a text is written. None means: detected from the text.

    comments: what begins a comment line. inline: whether a comment may follow a value on its line.
    delimiter: "=", ":", " " (a run of blanks), "  " (columns) or " 0" (the blank before a number). others: further ones
    that lines of the same text have; the first in a line counts there. headings: the forms of lines that head a part,
    besides ``[name]``, such as ``== name ==``. next_key: what stands between a value and the next key in one line.
    value_first: the key stands behind its value. lines: forms of the lines that hold a key and its value; where there
    are any, no delimiter is looked for.
    """

    comments: tuple[str, ...] | None = None
    inline: bool | None = None
    delimiter: str | None = None
    others: tuple[str, ...] = ()
    headings: tuple[str, ...] = ()
    next_key: str = ""
    value_first: bool = False
    lines: tuple[str, ...] = ()

    @property
    def delimiters(self) -> tuple[str, ...]:
        """All that the map names; () where it is to be detected."""
        return () if self.delimiter is None else (self.delimiter, *self.others)


class Assignment(NamedTuple):
    """``key = value``. line counts from 1; start and end are the value's span in the text, quotes included."""

    line: int
    section: str
    key: str
    start: int
    end: int


class Heading(NamedTuple):
    """``[name]``; end is the offset behind the closing bracket."""

    line: int
    name: str
    end: int


class Unread(NamedTuple):
    """A line that is neither blank, comment, heading nor assignment: kept, and named."""

    line: int
    start: int
    end: int


class Edit(NamedTuple):
    """Replace ``text[start:end]`` by ``new``."""

    start: int
    end: int
    new: str


def line_ends(text: str, start: int = 0, end: int | None = None) -> int:
    """How many line ends (LF, CRLF, CR) a part of a text holds."""
    end = len(text) if end is None else end
    return text.count("\n", start, end) + text.count("\r", start, end) - text.count("\r\n", start, end)


class Document(NamedTuple):
    """One file. name: as the user named it; delimiter: the one found or given; newline: the most used.

    assignments, headings, unread: in the order of the text, kept as numbers (``text/packed.py``). first_ends: where
    a value that goes on in further lines ends in its first one (a remark left out).
    """

    name: str
    text: str
    codec: Codec
    delimiter: str
    newline: str
    assignments: Sequence[Assignment]
    headings: Sequence[Heading]
    unread: Sequence[Unread]
    first_ends: FirstEnds

    def lines(self) -> list[str]:
        """All lines, without their ends."""
        return self.text.replace("\r\n", "\n").replace("\r", "\n").split("\n")

    def value(self, assignment: Assignment) -> str:
        """A value as written."""
        return self.text[assignment.start : assignment.end]

    def first_line(self, assignment: Assignment) -> str:
        r"""What a value says in the line of its key; all of it where that line is blank or ends in a ``\``.

        It begins as ``value`` does, so that spans in it are spans in that.
        """
        end = self.first_ends.get(assignment.start, assignment.end)
        if end == assignment.end:
            return self.value(assignment)
        text = self.text[assignment.start : end]
        return text if text.strip() and not text.endswith("\\") else self.value(assignment)

    def line_at(self, offset: int) -> int:
        """The number, from 1, of the line that holds an offset."""
        return line_ends(self.text, 0, offset) + 1
