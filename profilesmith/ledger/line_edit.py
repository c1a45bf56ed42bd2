"""What was edited between two states of one text beside its settings: values of other keys, lines, the text's form."""

from __future__ import annotations

from typing import Literal

from profilesmith.foundation.named_tuple import NamedTuple

LinesEdit = Literal["put in", "taken out", "moved", "around values"]


class ValueEdited(NamedTuple):
    """A value, or one line of a value that goes on below.

    was, now: its texts; None where the key is not there. means_the_same: the map knows the key, and reads both alike.
    """

    key: str
    was: str | None
    now: str | None
    file: str
    line: int
    means_the_same: bool


class EditedLine(NamedTuple):
    """text: without the blanks around it, "" for an empty line."""

    number: int
    text: str


class LinesEdited(NamedTuple):
    how: LinesEdit
    file: str
    lines: tuple[EditedLine, ...]


class FormEdited(NamedTuple):
    """What is edited of the whole text: line ends, encoding."""

    what: str
    was: str
    now: str
    file: str


LineEdit = ValueEdited | LinesEdited | FormEdited
