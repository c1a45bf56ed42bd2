"""``shift``: The base value plus a step. A temperature shifts by a difference."""

from __future__ import annotations

from collections.abc import Sequence

from profilesmith.recipe.operations.operation import Demand, Operation, number
from profilesmith.vocabulary.setting import Value


def demand(values: Sequence[Value]) -> Demand:
    return Demand(plus=number(values[0]))


OPERATION = Operation("shift", "plus {0}", demand, reads="difference")
