"""Notes that a text's numbers in brackets send one to: ``7) the nozzle``, ``[7] the nozzle``, ``* as a rule``.

Comes in: lines. Goes out: number -> note.
"""

import re
from collections.abc import Mapping, Sequence

from profilesmith.foundation.named_tuple import NamedTuple

FEWEST_NOTES = 4
LONGEST = 320  # signs of a note
_NUMBERED = re.compile(r"\s*[\[({^]?([A-Za-z]?\d{1,3}|[*†‡§]{1,3})\s*(?:[\])}.:]|--?|–|—|\s)+\s*(\S.*)")


_ID = re.compile(r"[A-Za-z]?\d{1,3}|[*†‡§]{1,3}")


class NumberedNote(NamedTuple):
    """A note and the line that it begins in."""

    line: int
    text: str


def note_numbers(behind: str, notes: Mapping[str, NumberedNote]) -> list[str]:
    """The numbers of notes that stand behind a value, if nothing else does."""
    numbers = _ID.findall(behind)
    return numbers if all(one in notes for one in numbers) and not any(map(str.isalpha, _ID.sub("", behind))) else []


def numbered_notes(lines: Sequence[str], free: set[int]) -> dict[str, NumberedNote]:
    """The notes of a text by their number: lines that begin with one, and what goes on below."""
    notes: dict[str, NumberedNote] = {}
    last = ""
    for number, line in enumerate(lines, 1):
        match = _NUMBERED.fullmatch(line) if number in free else None
        if match and any(map(str.isalpha, match[2])):
            last = match[1]
            notes[last] = NumberedNote(number, match[2].strip())
        elif last and number in free and line.startswith((" ", "\t")) and line.strip():
            notes[last] = notes[last]._replace(text=f"{notes[last].text} {line.strip()}"[:LONGEST])
        else:
            last = ""
    return notes if len(notes) >= FEWEST_NOTES else {}
