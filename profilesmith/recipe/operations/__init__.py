"""One small pure function per operation, listed in one literal tuple. To add one: a file and a line here."""

from __future__ import annotations

from profilesmith.recipe.operations import aim, cap, hold, raise_to, scale, set_to, shift, window
from profilesmith.recipe.operations.operation import Demand, Operation

OPERATIONS: tuple[Operation, ...] = (
    set_to.OPERATION,
    aim.OPERATION,
    cap.OPERATION,
    raise_to.OPERATION,
    window.OPERATION,
    scale.OPERATION,
    shift.OPERATION,
    hold.OPERATION,
)

BY_NAME = {operation.name: operation for operation in OPERATIONS}

__all__ = ["BY_NAME", "OPERATIONS", "Demand", "Operation"]
