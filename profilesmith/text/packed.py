"""Items of a text kept as numbers: some 20 bytes each in place of 250, so that a reading stays near its text's size.

An item is made when it is asked for; those of a text of usual length are kept once made.
"""

from array import array
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from typing import Any, TypeVar, overload

from profilesmith.text.document import Assignment, Heading, Unread

Item = TypeVar("Item", Assignment, Heading, Unread)
KEPT = 10_000
"""Items that stay made: the lines of any text that a person wrote."""
_make = tuple.__new__  # a third of the time of a NamedTuple's own


class Packed(Sequence[Item]):
    """A tuple of items by all its looks. numbers: ``width`` of them for each item, the line first."""

    width = 3

    def __init__(self, text: str, numbers: "array[int]") -> None:
        self.text, self.numbers = text, numbers
        self.made: tuple[Item, ...] | None = None

    def __len__(self) -> int:
        return len(self.numbers) // self.width

    def __iter__(self) -> Iterator[Item]:
        if self.made is None and len(self) <= KEPT:
            self.made = tuple(self._all())
        return self._all() if self.made is None else iter(self.made)

    @overload
    def __getitem__(self, at: int) -> Item: ...
    @overload
    def __getitem__(self, at: slice) -> tuple[Item, ...]: ...
    def __getitem__(self, at: int | slice) -> Item | tuple[Item, ...]:
        if isinstance(at, slice):
            return tuple(self[one] for one in range(*at.indices(len(self))))
        if self.made is not None:
            return self.made[at]
        place = range(len(self))[at] * self.width
        return self._one(tuple(self.numbers[place : place + self.width]))

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Packed | tuple) and len(self) == len(other) and tuple(self) == tuple(other)

    __hash__ = None  # type: ignore[assignment]

    def __repr__(self) -> str:
        return repr(tuple(self))

    def _all(self) -> Iterator[Item]:
        return map(self._one, self._rows())

    def _rows(self) -> Iterator[tuple[int, ...]]:
        return zip(*[iter(self.numbers)] * self.width, strict=True)

    def _one(self, row: tuple[int, ...]) -> Item:
        raise NotImplementedError


class UnreadLines(Packed[Unread]):
    """Of each line: its number, start and end."""

    def _one(self, row: tuple[int, ...]) -> Unread:
        return Unread(*row)


class Headings(Packed[Heading]):
    """Of each heading: its line, where its name starts and ends, and the offset behind the bracket."""

    width = 4

    def _one(self, row: tuple[int, ...]) -> Heading:
        line, start, stop, end = row
        return Heading(line, self.text[start:stop], end)

    def above(self, line: int) -> str:
        """The name of the section that a line stands in; "" above all headings."""
        at = bisect_left(range(len(self)), line, key=lambda one: self.numbers[one * self.width])
        return self[at - 1].name if at else ""


class Assignments(Packed[Assignment]):
    """Of each: its line, where its key starts and ends, where its value does. Its section is that of its line."""

    width = 5

    def __init__(self, text: str, numbers: "array[int]", headings: Headings) -> None:
        super().__init__(text, numbers)
        self.headings = headings

    def _one(self, row: tuple[int, ...]) -> Assignment:
        line, key, stop, start, end = row
        return Assignment(line, self.headings.above(line), self.text[key:stop], start, end)

    def _all(self) -> Iterator[Assignment]:
        text, section, coming = self.text, "", iter(self.headings)
        heading: Any = next(coming, None)
        for line, key, stop, start, end in self._rows():
            while heading is not None and heading.line < line:
                section, heading = heading.name, next(coming, None)
            yield _make(Assignment, (line, section, text[key:stop], start, end))
