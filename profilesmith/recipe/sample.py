"""A text that a setting of some kind could take, for the messages on one that it cannot."""

from __future__ import annotations

import re
from collections.abc import Sequence

from profilesmith.foundation.quantity import CANONICAL
from profilesmith.recipe.operations import DIFFERENCE, RATIO, Operation
from profilesmith.vocabulary.setting import Setting

NUMBERS = {
    "length": "0.2",
    "acceleration": "500",
    "temperature": "215",
    "ratio": "70",
    "angle": "45",
    "duration": "10",
    "flow": "4",
    "count": "3",
}
PLAIN = re.compile(r"-?[0-9]{1,9}(\.[0-9]{1,9})?")


def sample_for(operation: Operation, settings: Sequence[Setting], written: object = None) -> str:
    """In quotes: what an operation on some settings could take. written: as in ``sample``."""
    if operation.products:
        return f'"{next(iter(operation.products))}"'
    setting = settings[0] if settings else None
    kind = "ratio" if operation.reads == RATIO else setting.kind if setting else "speed"
    return sample(kind, written, setting.values if setting else (), step=operation.reads == DIFFERENCE)


def sample(kind: str, written: object = None, values: Sequence[str] = (), step: bool = False) -> str:
    """In quotes. written: a bare number is given its unit. values: of a choice. step: of a difference, not a value."""
    if kind == "switch":
        return '"off"' if written is False else '"on"'
    if kind == "choice":
        return f'"{values[0] if values else "..."}"'
    bare = str(written) if not isinstance(written, bool) and PLAIN.fullmatch(str(written)) else ""
    number = bare or ("5" if step else NUMBERS.get(kind, "40"))
    return f'"{number} {CANONICAL.get(kind, "")}"'.replace(' "', '"')
