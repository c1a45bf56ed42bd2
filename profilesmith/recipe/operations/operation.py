"""Demand: what one rule asks of one setting. Operation: how a rule's key becomes a demand."""

from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import NamedTuple, Self

from profilesmith.foundation.quantity import read_quantity
from profilesmith.vocabulary.setting import Setting, Unreadable, Value, read_value


class Demand(NamedTuple):
    """low, high: bounds, None for none. exact: of a switch or choice. aim, times, plus: what makes the target."""

    low: Fraction | None = None
    high: Fraction | None = None
    exact: Value | None = None
    aim: Value | None = None
    times: Fraction | None = None
    plus: Fraction | None = None

    def merged(self, other: Self) -> Self:
        """Both demands of one rule, whose operations never speak of the same field twice."""
        given = {name: value for name, value in other._asdict().items() if value is not None}
        return self._replace(**given)


class Operation(NamedTuple):
    """name: the key in a rule. operands: how many. numbers_only: not for switches and choices.

    reads: ``value`` (a value of the setting), ``ratio`` (a share), ``difference`` (a step, also for temperatures)
    or ``word`` (a name that the engine looks up). demand: the pure function from values to a Demand.
    """

    name: str
    phrase: str
    demand: Callable[[Sequence[Value]], Demand]
    operands: int = 1
    numbers_only: bool = True
    reads: str = "value"


def number(value: Value) -> Fraction:
    """A value that the loader has already found to be a number."""
    if not isinstance(value, Fraction):
        raise TypeError(f"{value!r} is no number")
    return value


def why_unreadable(operation: Operation, text: str, setting: Setting) -> str:
    """Why a fixed operand cannot be a value of a setting, or ""."""
    if operation.reads == "ratio":
        found: object = read_quantity(text, "ratio")
    elif operation.reads == "difference":
        found = read_quantity(text, setting.kind, difference=True)
    else:
        value = read_value(setting, text)
        found = value.reason if isinstance(value, Unreadable) else None
        if setting.kind == "choice" and text not in setting.values:
            found = f"{text!r} is not one of {', '.join(setting.values)}"
    return found if isinstance(found, str) else ""
