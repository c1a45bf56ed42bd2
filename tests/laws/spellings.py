"""How a number may be written, and a reader of it that shares no line with the package.

Factors: inch, minute and degree Fahrenheit after NIST SP 811 (2008), appendix B.8; kelvin after the SI brochure.
A duty byte has 255 for the whole and no decimals (common practice, no source). The radian's factor is good to 50 digits
(OEIS A000796).
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from math import ceil, floor
from typing import Any, NamedTuple

from hypothesis import strategies as st

PI = Fraction("3.14159265358979323846264338327950288419716939937510")
Value = Fraction | bool | str


class Unit(NamedTuple):
    """canonical = (number - zero) * factor. exact: whether every decimal of the canonical unit is a short decimal
    here.
    """

    factor: Fraction
    zero: Fraction = Fraction(0)
    exact: bool = True


UNITS: Mapping[str, Mapping[str, Unit]] = {
    "speed": {
        "mm/s": Unit(Fraction(1)),
        "mm/min": Unit(Fraction(1, 60)),
        "cm/s": Unit(Fraction(10)),
        "cm/min": Unit(Fraction(10, 60)),
        "m/min": Unit(Fraction(1000, 60)),
        "in/s": Unit(Fraction("25.4"), exact=False),
        "in/min": Unit(Fraction("25.4") / 60, exact=False),
    },
    "length": {
        "mm": Unit(Fraction(1)),
        "um": Unit(Fraction(1, 1000)),
        "cm": Unit(Fraction(10)),
        "m": Unit(Fraction(1000)),
        "in": Unit(Fraction("25.4"), exact=False),
        "mil": Unit(Fraction("0.0254"), exact=False),
    },
    "acceleration": {"mm/s2": Unit(Fraction(1))},
    "temperature": {
        "C": Unit(Fraction(1)),
        "K": Unit(Fraction(1), Fraction("273.15")),
        "F": Unit(Fraction(5, 9), Fraction(32)),
    },
    "ratio": {"%": Unit(Fraction(1)), "fraction": Unit(Fraction(100)), "0-255": Unit(Fraction(100, 255), exact=False)},
    "angle": {"deg": Unit(Fraction(1)), "rad": Unit(180 / PI, exact=False)},
    "duration": {"s": Unit(Fraction(1)), "ms": Unit(Fraction(1, 1000)), "min": Unit(Fraction(60), exact=False)},
    "count": {"": Unit(Fraction(1))},
}
UNWRITTEN = ("0-255", "fraction", "")  # nobody writes these behind a number
NUMBER = re.compile(r"[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+-]?\d+)?")


class Range(NamedTuple):
    """What a profile of these tests holds, in the canonical unit, and the vocabulary's resolution."""

    kind: str
    low: str
    high: str
    step: str


NUMBERS: Mapping[str, Range] = {
    "outer_wall.speed": Range("speed", "20", "120", "0.1"),
    "inner_wall.speed": Range("speed", "20", "120", "0.1"),
    "infill.speed": Range("speed", "20", "120", "0.1"),
    "first_layer.speed": Range("speed", "20", "120", "0.1"),
    "travel.speed": Range("speed", "60", "300", "0.1"),
    "layer.height": Range("length", "0.08", "0.6", "0.01"),
    "bead.width": Range("length", "0.3", "1.2", "0.01"),
    "retraction.distance": Range("length", "0.5", "8", "0.1"),
    "nozzle.temperature": Range("temperature", "190", "240", "1"),
    "bed.temperature": Range("temperature", "40", "90", "1"),
    "support.density": Range("ratio", "5", "60", "1"),
    "infill.density": Range("ratio", "5", "60", "1"),
    "fan.power": Range("ratio", "10", "100", "1"),
    "support.overhang_angle": Range("angle", "20", "80", "1"),
    "layer.minimum_time": Range("duration", "2", "60", "1"),
    "print.acceleration": Range("acceleration", "300", "5000", "10"),
    "wall.count": Range("count", "1", "9", "1"),
    "top.layers": Range("count", "1", "9", "1"),
    "bottom.layers": Range("count", "1", "9", "1"),
}
SWITCHES = ("raft.on", "support.on", "brim.on")
CHOICE = "infill.pattern"
WORDS = ("lines", "grid", "triangles", "hexagons", "gyroid", "concentric", "cubic")


def short(value: Fraction) -> str:
    """A finite decimal as text."""
    places = next(places for places in range(40) if (value * 10**places).denominator == 1)
    digits = str(abs(int(value * 10**places))).rjust(places + 1, "0")
    text = f"{digits[:-places]}.{digits[-places:]}" if places else digits
    return f"-{text}" if value < 0 else text


@st.composite
def numerals(draw: st.DrawFn, low: Fraction, high: Fraction, decimal: str = ".", most: int = 3) -> str:
    """A number between two ends with some habit of decimals."""
    places = draw(st.integers(0, most))
    while floor(high * 10**places) - ceil(low * 10**places) < 3:
        places += 1
    count = draw(st.integers(ceil(low * 10**places), floor(high * 10**places)))
    digits = str(count).rjust(places + 1, "0")
    text = f"{digits[:-places]}.{digits[-places:]}" if places else digits
    return text.replace(".", decimal)


@dataclass(frozen=True, kw_only=True)
class Slot:
    """One setting in one line. raw: the whole value span. binding: its table in the map, without setting and key.

    unit: of a bare number; quote, separator, split, part: how the raw value is packed; reference: the setting that a
    share is of, or a constant; held: its value stays when the reference moves;
    sharers: the switches of this key, of which one can be on.
    """

    setting: str
    raw: str
    binding: Mapping[str, Any] = field(default_factory=dict)
    unit: str = ""
    decimal: str = "."
    separator: str = ""
    split: str = ""
    part: int = 0
    reference: str | Fraction | None = None
    held: bool = False
    sharers: tuple[str, ...] = ()
    texts: Mapping[str, Value] = field(default_factory=dict)

    @property
    def kind(self) -> str:
        return NUMBERS[self.setting].kind if self.setting in NUMBERS else "word"

    def step(self, whole: Fraction) -> Fraction:
        """The coarsest step in which a share of a whole may be written: the text's own, or the one that is promised."""
        _, _, decimals = NUMBER.match(self.raw).group().partition(self.decimal)  # type: ignore[union-attr]
        percent = UNITS["ratio"][self.unit].factor / 10 ** len(decimals)
        return min(percent, Fraction(1) if self.held else Fraction(1, 10)) * whole / 100

    @property
    def exact(self) -> bool:
        """Whether this spelling can hold any short decimal of the canonical unit."""
        units = [self.own(piece)[1] for piece in self.pieces(self.raw)] if self.kind != "word" else []
        return self.reference is None and all(unit is None or unit.exact for unit in units)

    def pieces(self, raw: str) -> list[str]:
        """The text of each tool's value."""
        items = raw.strip("\"'").split(self.separator) if self.separator else [raw]
        if self.split:
            items = [item.strip("\"'").split(self.split)[self.part - 1] for item in items]
        return [item.strip(" \t\"'") for item in items]

    def own(self, piece: str) -> tuple[Fraction, Unit | None]:
        """The bare number of a piece, and the unit in force; None for a share."""
        found = NUMBER.match(piece)
        assert found, piece
        suffix = piece[found.end() :].strip() or self.unit
        number = Fraction(found.group().replace(self.decimal, "."))
        suffix = {"°C": "C", "°": "deg", "mm/s^2": "mm/s2"}.get(suffix, suffix)
        if self.reference is not None and suffix in UNITS["ratio"] and self.kind != "ratio":
            return number * UNITS["ratio"][suffix].factor / 100, None
        return number, UNITS[self.kind][suffix]

    def read(self, raw: str, references: Mapping[str, tuple[Value, ...]]) -> tuple[Value, ...]:
        """The canonical values of a raw text. references: what shares are of."""
        if self.kind == "word":
            return tuple(self.texts.get(piece, piece) for piece in self.pieces(raw))
        return tuple(self._value(piece, references) for piece in self.pieces(raw))

    def _value(self, piece: str, references: Mapping[str, tuple[Value, ...]]) -> Fraction:
        number, unit = self.own(piece)
        if unit is None:
            whole = references[self.reference][0] if isinstance(self.reference, str) else self.reference
            assert isinstance(whole, Fraction)
            return number * whole
        value = (number - unit.zero) * unit.factor
        return 90 - value if self.binding.get("angle_from") == "horizontal" else value


def skeleton(raw: str) -> str:
    """A raw value with its numbers taken out: quotes, blanks, suffixes and separators are what is left."""
    return NUMBER.sub("#", raw)
