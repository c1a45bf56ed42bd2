"""Numbers of a motion file for people."""

from __future__ import annotations

from fractions import Fraction

from profilesmith.foundation.quantity import show_quantity
from profilesmith.motion.figures import PathSpot
from profilesmith.motion.judging.outcome import Seen
from profilesmith.physics.answer import Bracket
from profilesmith.review.wording import visible
from profilesmith.vocabulary.setting import Setting

_DIGITS = 3


def seen_text(values: tuple[Seen, ...], setting: Setting, kind: str = "") -> str:
    """``0.2 mm``, ``40 to 60 mm/s``, ``on``."""
    return " to ".join(one_text(value, setting, kind) for value in values)


def one_text(value: Seen, setting: Setting, kind: str = "") -> str:
    if isinstance(value, bool):
        return "on" if value else "off"
    if isinstance(value, str):
        return visible(value)
    return show_quantity(Fraction(round(value, _DIGITS)).limit_denominator(10**_DIGITS), kind or setting.kind)


def hours_text(seconds: float) -> str:
    """``2 h 05 min``, ``14 min``, ``50 s``."""
    if seconds < 100:
        return f"{seconds:.0f} s"
    minutes = round(seconds / 60)
    return f"{minutes} min" if minutes < 100 else f"{minutes // 60} h {minutes % 60:02d} min"


def hours_bracket(times: Bracket) -> str:
    low, high = hours_text(times.low), hours_text(times.high)
    return low if low == high else f"{low} to {high}"


def few(value: float, digits: int = 2) -> str:
    """A number with few digits and no trailing zeros."""
    text = f"{value:.{digits}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def place_text(spot: PathSpot) -> str:
    """``line 120, at 2.4 mm``."""
    height = f", at {few(spot.z)} mm" if spot.z else ""
    return f"line {spot.line}{height}" if spot.line else f"at {few(spot.z)} mm"


def places_text(spots: tuple[PathSpot, ...]) -> str:
    return "; ".join(place_text(spot) for spot in spots)
