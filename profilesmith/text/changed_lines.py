"""Which lines differ between two texts of one value. Knows no keys."""

from __future__ import annotations

from difflib import SequenceMatcher
from itertools import zip_longest

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.text.read_document import LINE_END


class ChangedLine(NamedTuple):
    """below: lines above it in the new text of the value. was, now: "" where there is no such line."""

    below: int
    was: str
    now: str


def changed_lines(was: str, now: str) -> list[ChangedLine]:
    """The lines of a value that are not as they were, in order; blanks around them are left out where more differs."""
    old, new = LINE_END.split(was), LINE_END.split(now)
    changed = []
    for tag, start, end, first, last in SequenceMatcher(None, old, new).get_opcodes():
        if tag != "equal":
            both = zip_longest(old[start:end], new[first:last], fillvalue="")
            changed += [_line(min(first + at, len(new) - 1), *texts) for at, texts in enumerate(both)]
    return changed


def _line(below: int, was: str, now: str) -> ChangedLine:
    bare = was.strip(), now.strip()
    return ChangedLine(below, *(bare if bare[0] != bare[1] else (was, now)))
