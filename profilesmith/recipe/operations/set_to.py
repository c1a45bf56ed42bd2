"""``set``: exactly this value. For a number it is a bound from both sides, so two unequal sets are a conflict."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from profilesmith.recipe.operations.operation import Demand, Operation
from profilesmith.vocabulary.setting import Value


def demand(values: Sequence[Value]) -> Demand:
    value = values[0]
    return Demand(low=value, high=value) if isinstance(value, Fraction) else Demand(exact=value)


OPERATION = Operation("set", "exactly {0}", demand, numbers_only=False)
