"""Notes that a text's numbers in brackets send one to: ``7) the nozzle``, ``[7] the nozzle``, ``* as a rule``.

Comes in: lines. Goes out: number -> note.
"""

import re
from collections.abc import Sequence

FEWEST_NOTES = 4
LONGEST = 320  # signs of a note
_NUMBERED = re.compile(r"\s*[\[({^]?(\d{1,3}|[*†‡§]{1,3})\s*(?:[\])}.:]|--?|–|—|\s)+\s*(\S.*)")


def numbered_notes(lines: Sequence[str], free: set[int]) -> dict[str, str]:
    """The notes of a text by their number: lines that begin with one, and what goes on below."""
    notes: dict[str, str] = {}
    last = ""
    for number, line in enumerate(lines, 1):
        match = _NUMBERED.fullmatch(line) if number in free else None
        if match and any(map(str.isalpha, match[2])):
            last = match[1]
            notes[last] = match[2].strip()
        elif last and number in free and line.startswith((" ", "\t")) and line.strip():
            notes[last] = f"{notes[last]} {line.strip()}"[:LONGEST]
        else:
            last = ""
    return notes if len(notes) >= FEWEST_NOTES else {}
