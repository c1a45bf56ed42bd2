"""What a rule can ask: one table in which every operation says all of itself, and what a demand is.

Who reads rules asks an operation what it is; who writes rules takes one by the names below.
"""

from profilesmith.recipe.operations.operation import (
    DIFFERENCE,
    NUMBERS,
    PRODUCT,
    RATIO,
    VALUE,
    Demand,
    Operation,
)
from profilesmith.recipe.operations.table import (
    AIM,
    BY_NAME,
    CAP,
    HOLD,
    LEARNED,
    OPERATIONS,
    RAISE_TO,
    SCALE,
    SET,
    SHIFT,
    WINDOW,
)

__all__ = [
    "AIM",
    "BY_NAME",
    "CAP",
    "DIFFERENCE",
    "HOLD",
    "LEARNED",
    "NUMBERS",
    "OPERATIONS",
    "PRODUCT",
    "RAISE_TO",
    "RATIO",
    "SCALE",
    "SET",
    "SHIFT",
    "VALUE",
    "WINDOW",
    "Demand",
    "Operation",
]
