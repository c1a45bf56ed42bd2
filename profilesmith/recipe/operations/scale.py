"""``scale``: The base value times a share. Never for temperatures: their zero is arbitrary."""

from __future__ import annotations

from collections.abc import Sequence

from profilesmith.recipe.operations.operation import Demand, Operation, number
from profilesmith.vocabulary.setting import Value


def demand(values: Sequence[Value]) -> Demand:
    return Demand(times=number(values[0]) / 100)


OPERATION = Operation("scale", "times {0}", demand, reads="ratio")
