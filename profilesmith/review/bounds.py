"""The bounds that a cause asks of a number, from what it asks as data."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from profilesmith.ledger import Asked
from profilesmith.recipe.operations import BY_NAME, VALUE

Bound = tuple[Fraction | None, Fraction | None]


def bounds_of(asked: Sequence[Asked]) -> list[Bound]:
    """The (lowest, highest) values of what is asked; an aim, a scale or a held product has none."""
    return [bound for item in asked if (bound := bound_of(item)) is not None]


def only_bounds(asked: Sequence[Asked]) -> list[Bound]:
    """The bounds of a cause that asks for nothing else; [] where it asks for more, or for what is no number."""
    bounds = bounds_of(asked)
    return bounds if len(bounds) == len(asked) else []


def bound_of(item: Asked) -> Bound | None:
    """What one operation bounds; None for what is no known bound."""
    operation = BY_NAME.get(item.operation)
    if (
        operation is None
        or not operation.is_bound
        or operation.reads != VALUE
        or len(item.values) != operation.operands
    ):
        return None
    if not all(isinstance(value, Fraction) for value in item.values):
        return None
    demand = operation.demand(item.values)
    return demand.low, demand.high


def looser(one: list[Bound], others: list[list[Bound]]) -> bool:
    """Whether every bound of ``one`` is met by whoever keeps some of the others."""
    lows = [low for bounds in others for low, _ in bounds if low is not None]
    highs = [high for bounds in others for _, high in bounds if high is not None]
    return bool(one) and all(
        (low is None or any(other >= low for other in lows)) and (high is None or any(other <= high for other in highs))
        for low, high in one
    )
