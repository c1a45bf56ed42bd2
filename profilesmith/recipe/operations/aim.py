"""``aim``: this value, as far as all bounds allow. The later recipe's aim is the more specific and wins."""

from __future__ import annotations

from collections.abc import Sequence

from profilesmith.recipe.operations.operation import Demand, Operation
from profilesmith.vocabulary.setting import Value


def demand(values: Sequence[Value]) -> Demand:
    return Demand(aim=values[0])


OPERATION = Operation("aim", "{0} where the bounds allow", demand, numbers_only=False)
