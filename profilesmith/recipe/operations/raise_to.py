"""``raise_to``: The value stays above or moves up to a bound."""

from __future__ import annotations

from collections.abc import Sequence

from profilesmith.recipe.operations.operation import Demand, Operation, number
from profilesmith.vocabulary.setting import Value


def demand(values: Sequence[Value]) -> Demand:
    return Demand(low=number(values[0]))


OPERATION = Operation("raise_to", "at least {0}", demand)
