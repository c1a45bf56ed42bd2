"""``window``: The value stays inside, or moves to the nearer end."""

from __future__ import annotations

from collections.abc import Sequence

from profilesmith.recipe.operations.operation import Demand, Operation, number
from profilesmith.vocabulary.setting import Value


def demand(values: Sequence[Value]) -> Demand:
    return Demand(low=number(values[0]), high=number(values[1]))


OPERATION = Operation("window", "{0} to {1}", demand, operands=2)
