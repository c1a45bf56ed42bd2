"""Fact definitions and facts: ``machine.drive`` -> remote, ``spool.nozzle_window`` -> (210, 220) °C."""

from collections.abc import Mapping
from fractions import Fraction
from functools import cache

from profilesmith.foundation.late_pattern import late
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.number import less, read_number
from profilesmith.foundation.place import Place
from profilesmith.foundation.quantity import CANONICAL, UNITS, read_quantity, show_quantity
from profilesmith.vocabulary.load_vocabulary import at_start, number_at_start

SEE_FACTS = "See 'profilesmith vocabulary machine', spool or part."
"""Where all facts are."""
_NUMBER = late(r"\d+(?:\.\d+)?")
_SAID_IN = {"duration": ("h", "min"), "part.face_pressure": ("kPa",)}
"""Of a kind of unit, or of one fact: the units in which people say it, the usual one first; else the canonical one."""


class Hardness(NamedTuple):
    """A Shore hardness, such as 92 A."""

    number: Fraction
    scale: str


FactValue = Fraction | str | Hardness | tuple[Fraction, Fraction]


class FactKind(NamedTuple):
    """What a fact may be. kind: choice, quantity, window, text or hardness. low, high: its plausible range."""

    name: str
    kind: str
    meaning: str
    ask: str
    unit_kind: str = ""
    values: tuple[str, ...] = ()
    low: Fraction | None = None
    high: Fraction | None = None

    def sample(self, name: str = "") -> str:
        """How an answer is written on the command line: ``machine.drive=direct``."""
        name = name or self.name
        if self.kind == "choice":
            return f"{name}={'|'.join(self.values)}"
        unit = self.said_in[0]
        if self.kind == "window":
            return f'"{name}=... {unit} to ... {unit}"'
        return f'"{name}={"92 Shore A" if self.kind == "hardness" else f"... {unit}".strip()}"'

    @property
    def said_in(self) -> tuple[str, ...]:
        """Units in which people say such a fact, the usual one first; ``("",)`` for what has none."""
        return _SAID_IN.get(self.name) or _SAID_IN.get(self.unit_kind) or (CANONICAL.get(self.unit_kind, ""),)

    def show(self, value: FactValue) -> str:
        """A fact's value for a person."""
        return show_fact(value, self.unit_kind)


def show_fact(value: FactValue, unit_kind: str) -> str:
    """A value for a person, rounded: ``210 °C to 220 °C``, ``92 Shore A``."""
    if isinstance(value, Hardness):
        return f"{show_quantity(value.number, 'count')} Shore {value.scale}"
    if isinstance(value, tuple):
        return " to ".join(show_quantity(end, unit_kind) for end in value)
    return show_quantity(value, unit_kind) if isinstance(value, Fraction) else value


class Fact(NamedTuple):
    """A value, where it was written, and the text that said it ("" where no text did)."""

    value: FactValue
    place: Place
    said: str = ""


Facts = Mapping[str, Fact]


def read_fact(kind: FactKind, written: object) -> FactValue | str | None:
    """A fact's value from TOML (text, number or list of two texts). None: no value; use ``why_not`` for the reason."""
    if kind.kind == "window":
        ends = written if isinstance(written, list) else str(written).replace(" to ", ",").split(",")
        bounds = [read_quantity(str(end), kind.unit_kind) for end in ends]
        if len(bounds) != 2 or not isinstance(bounds[0], Fraction) or not isinstance(bounds[1], Fraction):
            return None
        return (bounds[0], bounds[1]) if bounds[0] <= bounds[1] else None
    if not isinstance(written, str):
        return None
    if kind.kind == "choice":
        return written if written in kind.values else None
    if kind.kind == "hardness":
        return read_hardness(written)
    if kind.kind == "text":
        return written
    quantity = read_quantity(written, kind.unit_kind)
    return quantity if isinstance(quantity, Fraction) else None


def said(written: object) -> str:
    """What was written of a fact, as one text that ``read_fact`` reads to the same value."""
    return " to ".join(map(str, written)) if isinstance(written, list) else str(written)


def why_not(kind: FactKind, written: object) -> str:
    """What is wrong with a fact that did not read, in one sentence."""
    if kind.kind == "choice":
        return f"{written!r} is not one of {', '.join(kind.values)}"
    if kind.kind == "hardness":
        return f'{written!r} is not a hardness such as "92 Shore A"'
    if kind.kind == "window":
        return f"{written!r} is not a window: write two ends of {kind.unit_kind} with units, the lower one first"
    if kind.unit_kind == "count":
        return f"{written!r} is not a whole number"
    read = (
        read_quantity(written, kind.unit_kind) if isinstance(written, str) else f"{written!r} is not a text in quotes"
    )
    return read if isinstance(read, str) else ""


def how_to(kind: FactKind, written: object) -> str:
    """What mends a fact that did not read: the text with its unit, where only that was missing; and the question."""
    bare = kind.unit_kind != "count" and not any(char.isalpha() or char in "°%" for char in str(written))
    numbers = _NUMBER.findall(str(written)) if bare else []
    unit = kind.said_in[0]
    if kind.kind == "quantity" and len(numbers) == 1 and unit:
        return f"Write {' or '.join(_with_units(kind, numbers[0]))}. {kind.ask}"
    if kind.kind == "window" and len(numbers) == 2 and unit:
        return f'Write "{numbers[0]} {unit} to {numbers[1]} {unit}". {kind.ask}'
    if kind.kind == "choice":
        return f"Write {' or '.join(kind.values)}. {kind.ask}"
    return kind.ask


def _with_units(kind: FactKind, number: str) -> list[str]:
    """A bare number with each usual unit in which it can be right; where it is in none, with the first."""
    can_be = [unit for unit in kind.said_in if not is_out_of_range(kind, UNITS[unit].to_canonical(Fraction(number)))]
    return [f'"{number} {unit}"' for unit in can_be or kind.said_in[:1]]


def read_hardness(text: str) -> Hardness | None:
    """``92 Shore A``, ``Shore 92A``, ``45D``."""
    words = text.replace("Shore", " ").replace("shore", " ").split()
    joined = "".join(words)
    scale = joined[-1:].upper()
    number = joined[:-1]
    value = read_number(number)
    if scale not in ("A", "D") or value is None or not 0 <= value <= 100:
        return None
    return Hardness(value, scale)


@cache
def fact_kinds() -> Mapping[str, FactKind]:
    """All facts that this version knows."""
    kinds = {}
    for name, kind, meaning, ask, unit_kind, values, *ends in at_start()["facts"]:
        low, high = map(number_at_start, ends)
        kinds[name] = FactKind(name, kind, meaning, ask, unit_kind, tuple(values), low, high)
    return kinds


def is_out_of_range(kind: FactKind, value: FactValue) -> bool:
    """Whether a fact, or an end of it, is outside what can be right."""
    ends = value if isinstance(value, tuple) and not isinstance(value, Hardness) else (value,)
    return any(
        isinstance(end, Fraction)
        and kind.low is not None
        and kind.high is not None
        and (less(end, kind.low) or less(kind.high, end))
        for end in ends
    )


def out_of_range(kind: FactKind, value: FactValue) -> str:
    """A sentence that says why a fact cannot be right, or ""."""
    if not is_out_of_range(kind, value) or kind.low is None or kind.high is None:
        return ""
    return f"{kind.show(value)} is outside the plausible {kind.show(kind.low)} to {kind.show(kind.high)}"
