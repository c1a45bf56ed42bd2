"""The bounds in a demand's words (``at most 40 mm/s``, ``210 °C to 220 °C``), read back as numbers."""

from __future__ import annotations

import re
from fractions import Fraction

from profilesmith.foundation.quantity import read_quantity
from profilesmith.vocabulary.setting import Setting

Bound = tuple[Fraction | None, Fraction | None]
_PHRASES = (
    (re.compile(r"at most (.+)"), (False, True)),
    (re.compile(r"at least (.+)"), (True, False)),
    (re.compile(r"exactly (.+)"), (True, True)),
)


def bounds_of(demand: str, setting: Setting) -> list[Bound]:
    """The (lowest, highest) values of a demand in words; an aim, a scale or a held product has none."""
    return [bound for part in demand.split(", ") if (bound := _bound(part, setting)) is not None]


def only_bounds(demand: str, setting: Setting) -> list[Bound]:
    """The bounds of a demand that asks for nothing else; [] where it asks for more, or for what is no number."""
    found = bounds_of(demand, setting)
    return found if len(found) == len(demand.split(", ")) else []


def _bound(part: str, setting: Setting) -> Bound | None:
    for pattern, (is_low, is_high) in _PHRASES:
        match = pattern.fullmatch(part)
        value = _quantity(match.group(1), setting) if match else None
        if value is not None:
            return value if is_low else None, value if is_high else None
    low, middle, high = part.partition(" to ")
    ends = _quantity(low, setting), _quantity(high, setting)
    return ends if middle and None not in ends else None


def _quantity(text: str, setting: Setting) -> Fraction | None:
    value = read_quantity(text, setting.kind)
    return value if isinstance(value, Fraction) else None


def looser(one: list[Bound], others: list[list[Bound]]) -> bool:
    """Whether every bound of ``one`` is met by whoever keeps some of the others."""
    lows = [low for bounds in others for low, _ in bounds if low is not None]
    highs = [high for bounds in others for _, high in bounds if high is not None]
    return bool(one) and all(
        (low is None or any(other >= low for other in lows)) and (high is None or any(other <= high for other in highs))
        for low, high in one
    )
