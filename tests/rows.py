"""Rows of a ledger as tests write them: what is asked by the keys of a rule, values as a recipe has them."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from profilesmith.ledger import Asked, Cause, Operand, Row
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Unreadable, Value, read_value


def asked(setting: str, **operations: str) -> tuple[Asked, ...]:
    """``asked("outer_wall.speed", cap="40 mm/s")``; ends of a window are parted by `` to ``."""
    return tuple(_asked(setting, name, text) for name, text in operations.items())


def _asked(setting: str, name: str, text: str) -> Asked:
    values: list[Value] = []
    for part in text.split(" to "):
        value = read_value(load_vocabulary().settings[setting], part)
        if isinstance(value, Unreadable):  # a share or a step: the operand says it
            return Asked(name, (Fraction(1, 2),), (Operand("fixed", text),))
        values.append(value)
    return Asked(name, tuple(values))


def row(setting: str, asks: dict[str, str], base: Any, derived: Any, status: str = "changed") -> Row:
    """A row of a rule. base, derived: numbers in the canonical unit, a list for several tools."""
    cause = Cause("rule", "soft", "1.0.0", 1, asked(setting, **asks))
    return Row(setting, status, cause, _values(base), _values(derived))  # type: ignore[arg-type]


def _values(given: Any) -> tuple[Value, ...]:
    items = given if isinstance(given, list) else [given]
    return tuple(item if isinstance(item, bool | str) else Fraction(item) for item in items)
