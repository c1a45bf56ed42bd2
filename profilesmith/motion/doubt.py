"""Doubts: words that change a meaning and are not modelled, and which figures they make worthless.

A figure is judged only where no doubt touches its subject. Meaning is data here; ``review`` makes the words.
"""

from collections.abc import Iterator
from typing import Literal, get_args

from profilesmith.foundation.named_tuple import NamedTuple

Subject = Literal["path", "height", "strand", "speed", "travel", "time", "heat", "fan", "pull", "kind"]
EVERYTHING: tuple[Subject, ...] = get_args(Subject)

MOST_DOUBTS = 500  # a file of another kind altogether has one on each line


class Doubt(NamedTuple):
    """One reason not to trust figures. code: for wording; word: as written; line: of the first; times: how often."""

    code: str
    word: str
    line: int
    subjects: tuple[Subject, ...]
    times: int = 1


class Doubts:
    """All doubts of a file, each with its first line and how often it came."""

    def __init__(self) -> None:
        self._held: dict[tuple[str, str], Doubt] = {}

    def __iter__(self) -> Iterator[Doubt]:
        return iter(self._held.values())

    def __len__(self) -> int:
        return len(self._held)

    def add(self, code: str, word: str, line: int, subjects: tuple[Subject, ...] = EVERYTHING) -> None:
        key = (code, word)
        if key not in self._held and len(self._held) >= MOST_DOUBTS:
            key = ("more", "")
            word, code, subjects = "", "more", EVERYTHING
        old = self._held.get(key)
        self._held[key] = old._replace(times=old.times + 1) if old else Doubt(code, word, line, subjects)
