"""Which assignments of the base files a binding means, and which of them counts."""

from collections import defaultdict
from collections.abc import Collection, Iterable
from functools import cached_property

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem
from profilesmith.profile.profile import Departure
from profilesmith.text.document import Assignment, Document, line_ends
from profilesmith.translation.key_map import Binding

_make = tuple.__new__  # a third of the time of a NamedTuple's own; one for each line of a text
MOST_ALIKE = 1000
"""Lines of one key that are all kept alike, each with a row of its own in the ledger."""


def composed(text: str) -> str:
    """A text with each letter and its marks as one sign."""
    if text.isascii():
        return text
    import unicodedata  # a library of its own: loaded for texts that need it

    return unicodedata.normalize("NFC", text)


def _same_letters(one: str, other: str) -> bool:
    return composed(one) == composed(other)


class KeyLine(NamedTuple):
    """An assignment in one of the documents."""

    document: int
    assignment: Assignment


def value_text(document: Document, assignment: Assignment, binding: Binding) -> str:
    """What a binding reads of a value: its first line, and all of it only where the map divides it.

    A number, a switch or a choice has one line. What stands indented below may be anything, and is not theirs.
    """
    whole = binding.tools or binding.split
    return document.value(assignment) if whole else document.first_line(assignment)


class KeyIndex:
    """All assignments of all base files by key."""

    def __init__(self, documents: tuple[Document, ...]) -> None:
        self.documents = documents
        self.by_letters: dict[str, list[str]] | None = None

    @cached_property
    def lines(self) -> list[KeyLine]:
        """In the order of the texts."""
        return [
            _make(KeyLine, (number, item))
            for number, document in enumerate(self.documents)
            for item in document.assignments
        ]

    @cached_property
    def by_key(self) -> dict[str, list[KeyLine]]:
        by_key: dict[str, list[KeyLine]] = {}
        for line in self.lines:
            key = line[1][2]
            if key in by_key:
                by_key[key].append(line)
            else:
                by_key[key] = [line]
        return by_key

    def keys(self) -> Iterable[str]:
        return self.by_key

    def text(self, line: KeyLine) -> str:
        return self.documents[line.document].value(line.assignment)

    def value(self, line: KeyLine, binding: Binding) -> str:
        """What a binding reads of a line's value."""
        return value_text(self.documents[line.document], line.assignment, binding)

    def below(self, line: KeyLine, read: str) -> tuple[Departure, ...]:
        """The lines that stand indented below the part of a value that is read; () for none."""
        text, item = self.documents[line.document].text, line.assignment
        if item.start + len(read) >= item.end:
            return ()
        more = line_ends(text, item.start + len(read), item.end)
        return (Departure("lines-below", lines=(item.line + 1, item.line + more)),) if more else ()

    def place(self, line: KeyLine) -> Place:
        return Place(self.documents[line.document].name, line.assignment.line)

    def find(self, key: str, section: str | None) -> list[KeyLine]:
        """All lines of a key. Without a section those outside of all sections come first."""
        lines = self.by_key.get(key) or self.by_key.get(self.alike(key), [])
        if len(lines) == 1 and (section is None or lines[0].assignment.section == section):
            return lines  # as mostly
        if section is not None:
            return [line for line in lines if line[1][1] == section or _same_letters(line[1][1], section)]
        outside = [line for line in lines if not line.assignment.section]
        return outside or lines

    def alike(self, key: str) -> str:
        """The one key of the texts that has the same letters, composed otherwise (``ö`` as one sign or as two); "" for
        none.

        Unicode Standard Annex 15: canonically equivalent texts are the same text.
        """
        if key.isascii():
            return ""
        if self.by_letters is None:
            self.by_letters = defaultdict(list)
            for name in self.by_key:
                self.by_letters[composed(name)].append(name)
        names = self.by_letters.get(composed(key), [])
        return names[0] if len(names) == 1 else ""

    def others(self, used: Iterable[KeyLine], references: Collection[str]) -> tuple[KeyLine, ...]:
        """The lines whose key no binding knows. used: lines of this index that bindings found; references: keys that
        shares are of.
        """
        known = {id(line) for line in used}
        return tuple(line for line in self.lines if id(line) not in known and line.assignment.key not in references)

    def chosen(self, binding: Binding, policy: str) -> tuple[list[KeyLine], list[Problem]]:
        """The lines that count for a binding: one, or several that say the same (all are then kept alike).

        policy: ``first`` or ``last`` of several; "" makes unequal ones a problem.
        """
        lines = self.find(binding.key, binding.section)
        if len(lines) > MOST_ALIKE and not policy:
            message = f"The key {binding.key!r} stands in {len(lines):,} lines, more than {MOST_ALIKE:,}."
            hint = 'Say in the map\'s [text] which of them counts: duplicates = "last".'
            return [], [Problem("too-many-lines", message, self.place(lines[1]), hint)]
        if len(lines) <= 1:
            return lines, []
        texts = {self.text(line) for line in lines}
        sections = {line.assignment.section for line in lines}
        if len(sections) > 1:
            return [], [self._many_sections(binding, lines, sections)]
        if policy:
            return [lines[0 if policy == "first" else -1]], []
        if len(texts) == 1:
            return lines, []
        first, second = lines[0], next(line for line in lines if self.text(line) != self.text(lines[0]))
        where = f"{self.place(first)} ({self.text(first)!r}) and {self.place(second)} ({self.text(second)!r})"
        hint = 'Remove one, or write duplicates = "last" in the map\'s [text].'
        message = f"Two lines claim {binding.key!r} with different values: {where}."
        return [], [Problem("two-lines", message, self.place(second), hint)]

    def _many_sections(self, binding: Binding, lines: list[KeyLine], sections: set[str]) -> Problem:
        """A key without a section that stands in several: its lines may mean quite different things."""
        named = ", ".join(repr(name) for name in sorted(sections))
        places = " and ".join(str(self.place(line)) for line in lines[:2])
        message = f"The key {binding.key!r} stands in several sections ({named}): {places}."
        hint = f"Say in the map which section is meant: {named}."
        return Problem("two-lines", message, self.place(lines[1]), hint)
