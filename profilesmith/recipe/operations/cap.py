"""``cap``: The value stays below or moves down to a bound."""

from __future__ import annotations

from collections.abc import Sequence

from profilesmith.recipe.operations.operation import Demand, Operation, number
from profilesmith.vocabulary.setting import Value


def demand(values: Sequence[Value]) -> Demand:
    return Demand(high=number(values[0]))


OPERATION = Operation("cap", "at most {0}", demand)
