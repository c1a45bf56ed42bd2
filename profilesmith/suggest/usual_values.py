"""Canonical numbers in words: what a setting mostly is, and what a bare number would be in a unit."""

from fractions import Fraction

from profilesmith.foundation.quantity import CANONICAL, UNITS
from profilesmith.suggest.ideas import Schema
from profilesmith.suggest.slot import Slot
from profilesmith.suggest.values import Way


def usual(schema: Schema) -> str:
    """``25 to 75 °C``, or "" for what has no usual range."""
    if not schema.typical:
        return ""
    low, high = schema.typical
    return f"{low:g} to {high:g} {CANONICAL.get(schema.setting.kind, '')}".rstrip()


def read_as(slot: Slot, way: Way, kind: str) -> str:
    """``0.18 mm (in um)``: a slot's number read in one way."""
    number = slot.number or Fraction(0)
    if way.share:
        return f"a share of {float(UNITS[way.unit].to_canonical(number)):g} %"
    unit, canonical = UNITS.get(way.unit), CANONICAL.get(kind, "")
    if unit is None:
        return "a bare number"
    value = f"{float(unit.to_canonical(number)):.4g} {canonical}"
    return value if way.unit == canonical else f"{value} (in {way.unit})"
