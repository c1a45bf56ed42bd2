"""A text's lines as configparser divides them: a second opinion, by a reader that shares no code with ours.

In: some lines with their numbers. Out: section, key and value by line. It knows no layouts: where a line is written in
another way than configparser's, it is divided in the wrong place or not at all, which is for the caller to see.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from functools import partial
from typing import TYPE_CHECKING, Any

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.text.cuts import BEFORE_NUMBER, COLUMNS
from profilesmith.text.document import DEFAULT_COMMENTS, Habits

if TYPE_CHECKING:
    from configparser import RawConfigParser

_NO_SECTION = "[ ]\n"
"""What configparser is given above all headings: it reads no entry without one."""


class KeyRead(NamedTuple):
    """What one line says, without the blanks around. section: "" above all headings."""

    section: str
    key: str
    value: str


class _Notes:
    """The line that is being read, and what was made of each so far: its section's dictionary, its key, its value."""

    def __init__(self) -> None:
        self.line = 0
        self.entries: dict[int, tuple[_Noting, str, list[str]]] = {}


class _Noting(dict[str, Any]):
    """A dictionary for configparser, which makes one for all sections and one for each: it notes what comes when."""

    def __init__(self, notes: _Notes) -> None:
        super().__init__()
        self.notes, self.section = notes, ""

    def __setitem__(self, name: str, value: object) -> None:
        super().__setitem__(name, value)
        if isinstance(value, _Noting):
            value.section = name.strip()
        elif isinstance(value, list):  # an entry, whose further lines are put behind; later it is set as one text
            self.notes.entries[self.notes.line] = self, name, value


class SecondReader:
    """For the texts of one layout. delimiter: the one found where habits have none."""

    def __init__(self, delimiter: str, habits: Habits) -> None:
        signs = [sign for sign in habits.delimiters or (delimiter,) if sign != BEFORE_NUMBER]
        self.notes = _Notes()
        self.parser: RawConfigParser | None = None
        if signs and not habits.value_first:
            self.parser = _parser([*signs, "\t"] if COLUMNS in signs else signs, habits, self.notes)

    def read(self, lines: Iterable[tuple[int, str]]) -> Mapping[int, KeyRead]:
        """What configparser makes of lines, by the number of the line in which each entry begins.

        lines: numbered, without their ends. Lines that it cannot divide are left out; all of them where keys stand
        behind their values, or where no delimiter is a sign that it can know.
        """
        from configparser import Error

        if self.parser is None:
            return {}
        try:
            with suppress(Error):  # which it raises for all lines that it cannot divide, after all others
                self.parser.read_file(self._counted(lines))
            entries = self.notes.entries.items()
            return {line: KeyRead(at.section, key, "\n".join(value).strip()) for line, (at, key, value) in entries}
        finally:
            self._forget()

    def _forget(self) -> None:
        """What was read: with it the parser goes round in circles, which wait for the collector."""
        self.notes.entries = {}
        if self.parser is not None:
            for section in self.parser.sections():
                self.parser.remove_section(section)

    def _counted(self, lines: Iterable[tuple[int, str]]) -> Iterator[str]:
        yield _NO_SECTION
        for self.notes.line, line in lines:
            yield f"{line}\n"


def _parser(delimiters: list[str], habits: Habits, notes: _Notes) -> RawConfigParser:
    """It converts no values: each section would have methods of its own for that."""
    from configparser import RawConfigParser

    marks = DEFAULT_COMMENTS if habits.comments is None else habits.comments
    comments = [mark for mark in marks if mark.strip() and mark not in delimiters]
    noting: Any = partial(_Noting, notes)  # which is called as a class is
    parser = RawConfigParser(
        dict_type=noting,
        delimiters=delimiters,
        comment_prefixes=comments,
        inline_comment_prefixes=comments if habits.inline else None,
        strict=False,  # by lines, equal keys are told from one another
        default_section="\n",  # no line heads it
        empty_lines_in_values=False,
    )
    parser.optionxform = str  # type: ignore[method-assign,assignment]
    for kind in [*parser.converters]:
        del parser.converters[kind]
    return parser
