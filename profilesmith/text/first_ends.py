"""Where the values that go on below their line end in it: two numbers each, however many there are."""

from array import array
from bisect import bisect_left


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
