"""Which assignments of the base files a binding means, and which of them counts."""

from collections import defaultdict
from collections.abc import Iterable
from typing import NamedTuple

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem
from profilesmith.text.document import Assignment, Document
from profilesmith.translation.key_map import Binding


class Found(NamedTuple):
    """An assignment in one of the documents."""

    document: int
    assignment: Assignment


class KeyIndex:
    """All assignments of all base files by key."""

    def __init__(self, documents: tuple[Document, ...]) -> None:
        self.documents = documents
        self.by_key: dict[str, list[Found]] = defaultdict(list)
        for number, document in enumerate(documents):
            for assignment in document.assignments:
                self.by_key[assignment.key].append(Found(number, assignment))

    def keys(self) -> Iterable[str]:
        return self.by_key

    def text(self, found: Found) -> str:
        return self.documents[found.document].value(found.assignment)

    def place(self, found: Found) -> Place:
        return Place(self.documents[found.document].name, found.assignment.line)

    def find(self, key: str, section: str | None) -> list[Found]:
        """All lines of a key. Without a section those outside of all sections come first."""
        lines = self.by_key.get(key, [])
        if section is not None:
            return [found for found in lines if found.assignment.section == section]
        outside = [found for found in lines if not found.assignment.section]
        return outside or lines

    def chosen(self, binding: Binding, policy: str) -> tuple[list[Found], list[Problem]]:
        """The lines that count for a binding: one, or several that say the same (all are then kept alike).

        policy: ``first`` or ``last`` of several; "" makes unequal ones a problem.
        """
        lines = self.find(binding.key, binding.section)
        texts = {self.text(found) for found in lines}
        if len(lines) <= 1:
            return lines, []
        sections = {found.assignment.section for found in lines}
        if len(sections) > 1:
            return [], [self._many_sections(binding, lines, sections)]
        if policy:
            return [lines[0 if policy == "first" else -1]], []
        if len(texts) == 1:
            return lines, []
        first, second = lines[0], next(found for found in lines if self.text(found) != self.text(lines[0]))
        where = f"{self.place(first)} ({self.text(first)!r}) and {self.place(second)} ({self.text(second)!r})"
        hint = 'Remove one, or write duplicates = "last" in the map\'s [text].'
        message = f"Two lines claim {binding.key!r} with different values: {where}."
        return [], [Problem("two-lines", message, self.place(second), hint)]

    def _many_sections(self, binding: Binding, lines: list[Found], sections: set[str]) -> Problem:
        """A key without a section that stands in several: its lines may mean quite different things."""
        named = ", ".join(repr(name) for name in sorted(sections))
        places = " and ".join(str(self.place(found)) for found in lines[:2])
        message = f"The key {binding.key!r} stands in several sections ({named}): {places}."
        hint = f"Say in the map which section is meant: {named}."
        return Problem("two-lines", message, self.place(lines[1]), hint)
