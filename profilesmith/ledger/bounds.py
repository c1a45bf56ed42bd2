"""Bounds of a ledger file, which may come from a stranger: no number, name or nesting is more than can be worked
with.
"""

import json
from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from profilesmith.foundation.late_pattern import late

DEEPEST, LONGEST_NUMBER = 24, 40
_EXPONENT = late(r"[eE][-+]?[0-9]{4,}\Z")


def whole(text: str) -> int:
    """A whole number of bearable length."""
    if len(text) > LONGEST_NUMBER:
        raise ValueError("a number that is far too long")
    return int(text)


def exact(text: str) -> Fraction:
    """A number as an exact fraction. 1e999999999 would be one of a thousand million digits."""
    if len(text) > LONGEST_NUMBER or _EXPONENT.search(text):
        raise ValueError("a number that is far too long")
    value = Fraction(text)
    if abs(value) > 10**15:
        raise ValueError("a number that is far too large")
    return value


def refuse_constant(text: str) -> float:
    """NaN and the infinities, which JSON does not have and Python would read."""
    raise ValueError(text)


def load(text: str) -> Any:
    """A JSON text within bounds, its numbers exact. Raises ValueError, or RecursionError."""
    return json.loads(text, parse_float=exact, parse_int=whole, parse_constant=refuse_constant)


def hold(data: Mapping[str, Any]) -> None:
    """Raise ValueError for what is nested too deep, and for an output whose name leads out of the ledger's folder."""
    if _too_deep(data):
        raise ValueError("nested too deep")
    if not all(_plain_name(item) for item in data.get("outputs", ())):
        raise ValueError("an output elsewhere")


def _plain_name(item: Mapping[str, Any]) -> bool:
    """Whether an output is named as a file beside the ledger. Which letters it has is a matter of who shows it."""
    name = item["name"]
    return bool(name) and not set(name) & {"/", "\\", "\0"} and name not in (".", "..")


def _too_deep(data: object) -> bool:
    stack = [(data, 1)]
    while stack:
        item, depth = stack.pop()
        if depth > DEEPEST:
            return True
        children = item.values() if isinstance(item, dict) else item if isinstance(item, list) else ()
        stack.extend((child, depth + 1) for child in children)
    return False
