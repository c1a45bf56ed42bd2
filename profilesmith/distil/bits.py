"""How many bits a way of describing the pairs takes: the shortest description is the best explanation.

Source: minimum description length, J. Rissanen, "Modeling by shortest data description", Automatica 14 (1978) 465.
"""

from math import log2

from profilesmith.recipe.operations import LEARNED
from profilesmith.vocabulary.setting import Setting

KINDS = ("unchanged", *(operation.name for operation in LEARNED), "fact", "of", "when", "group")
"""What can be said of a setting. Their number is what naming one of them costs."""

CLOSE = 1e-9
"""Bits that make no difference."""


def rule_bits(kinds: int, grid: float, seen: int, parameters: int, exceptions: int) -> float:
    """Bits of one rule: its kind, its parameters, and for each exception which of ``seen`` it is and its value."""
    return log2(kinds) + parameters * log2(grid) + exceptions * (log2(seen) + log2(grid))


def width_bits(steps: int) -> float:
    """Bits of how many steps a window is wide: small numbers are short.

    Source: the universal code of P. Elias, "Universal codeword sets and representations of the integers", IEEE
    Transactions on Information Theory 21 (1975) 194 (its gamma code, without rounding up).
    """
    return 2 * log2(steps) + 1


def list_bits(grid: float, seen: int) -> float:
    """Bits of a plain list of the new values: no rule at all."""
    return seen * log2(grid)


def grid_of(setting: Setting) -> int:
    """How many values a setting can take: the steps of its plausible range, or its words."""
    if setting.low is None or setting.high is None or not setting.step:
        return max(2, len(setting.values))
    return int((setting.high - setting.low) / setting.step) + 1
