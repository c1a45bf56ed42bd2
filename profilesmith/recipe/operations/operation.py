"""Demand: what one rule asks of one setting. Operation: all that is to be known of a key of a rule that asks it.

Whoever handles rules asks an operation what it is; nobody outside of this folder knows one by its name.

Product: one of two settings that a rule can hold. Exact layer counts: N' = ceil(N h / h') in fractions, never in floats
(``ceil(3 * 0.2 / 0.2)`` is 4 there).
"""

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from functools import cache
from typing import Self

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.quantity import CANONICAL, read_quantity
from profilesmith.physics.skins import layers_for_same_thickness
from profilesmith.vocabulary.setting import Setting, Unreadable, Value, read_value


class Product(NamedTuple):
    """settings: those that may be held. partner: the setting whose change is made up for.

    lowest: from (base value, partner before, partner after) to the lowest value that holds the product.
    by_hand: for a person with a list, what to see to and how.
    """

    settings: tuple[str, ...]
    partner: str
    meaning: str
    lowest: Callable[[Fraction, Fraction, Fraction], Fraction]
    by_hand: tuple[str, str]


def _whole_layers(base: Fraction, before: Fraction, after: Fraction) -> Fraction:
    return Fraction(layers_for_same_thickness(int(base), before, after))


def _in_proportion(base: Fraction, before: Fraction, after: Fraction) -> Fraction:
    """Line spacing w / density: wider lines need more of the space."""
    return base * after / before


PRODUCTS: Mapping[str, Product] = {
    "thickness": Product(
        ("top.layers", "bottom.layers", "support.contact_layers", "raft.layers"),
        "layer.height",
        "layers times layer height stays at least what it was",
        _whole_layers,
        (
            "as thick as before",
            "when the layer height changes, take so many layers that layers times layer height is no less than it was",
        ),
    ),
    "line spacing": Product(
        ("support.density", "support.contact_density", "infill.density"),
        "bead.width",
        "lines of the same pattern stand no farther apart than they did",
        _in_proportion,
        (
            "as close as before",
            "when the bead width changes, multiply it by the new width and divide it by the old one",
        ),
    ),
}


VALUE, RATIO, DIFFERENCE, PRODUCT = "value", "ratio", "difference", "product"
"""What an operand is: a value of the setting, a share, a step (also of temperatures), or a product's name."""
NUMBERS = frozenset(CANONICAL)
EVERY_KIND = NUMBERS | {"switch", "choice"}


class Demand(NamedTuple):
    """low, high: bounds, None for none. exact: of a switch or choice. aim, times, plus: what makes the target."""

    low: Fraction | None = None
    high: Fraction | None = None
    exact: Value | None = None
    aim: Value | None = None
    times: Fraction | None = None
    plus: Fraction | None = None

    def merged(self, other: Self) -> Self:
        """Both demands of one rule, whose operations never speak of the same field twice."""
        given = {name: value for name, value in other._asdict().items() if value is not None}
        return self._replace(**given)


class Operation(NamedTuple):
    """name: the key in a rule. meaning: a sentence, for editors. demand: the pure function from values to a Demand.

    Every phrase has one place, for the operand; two ends stand there as ``210 °C to 220 °C``.
    phrase: of a row. on_pages: of a recipe that is shown, where it differs. below_zero: of a step downwards.
    by_hand: (what to see to, how) for a person with a list. noun: as in "a cap gives 40 mm/s".
    kinds: of settings that it may stand for. operands: how many; reads: what they are.
    beside: operations that may stand in one rule with it; one of two says so. instead: what to use where it cannot be.
    gentle: its place when equally good laws are told apart, the gentlest first; None: it is not learned from pairs.
    """

    name: str
    meaning: str
    demand: Callable[[Sequence[Value]], Demand]
    phrase: str
    by_hand: tuple[str, str]
    noun: str
    operands: int = 1
    reads: str = VALUE
    kinds: frozenset[str] = NUMBERS
    products: Mapping[str, Product] = {}
    beside: tuple[str, ...] = ()
    instead: str = "set"
    on_pages: str = ""
    below_zero: str = ""
    gentle: int | None = None

    @property
    def asks(self) -> frozenset[str]:
        """The fields of a Demand that it fills for numbers: its demand itself says whether it is a bound or an aim."""
        return _asks(self.demand, self.operands)

    @property
    def is_aim(self) -> bool:
        return "aim" in self.asks

    @property
    def is_bound(self) -> bool:
        return not self.asks.isdisjoint(("low", "high"))

    @property
    def is_exact(self) -> bool:
        """Whether one operand is both the lowest and the highest value."""
        return self.operands == 1 and _is_one_point(self.demand)

    @property
    def once(self) -> bool:
        """Whether it does its work again each time, so that a recipe with it is to be applied once."""
        return not self.asks.isdisjoint(("times", "plus"))

    @property
    def raises(self) -> bool:
        """Whether it can move a number upwards."""
        return not self.asks.isdisjoint(("low", "aim", "times", "plus"))

    @property
    def lowers(self) -> bool:
        return not self.asks.isdisjoint(("high", "aim", "times", "plus"))

    def takes(self, kind: str) -> bool:
        """Whether it may stand for a setting of a kind. A temperature has no share: its zero is arbitrary."""
        return kind in self.kinds and not (self.reads == RATIO and kind == "temperature")

    def goes_with(self, other: Self) -> bool:
        """Whether both may stand in one rule."""
        return other.name in self.beside or self.name in other.beside

    def words(self, operands: Sequence[str], phrase: str = "") -> str:
        """Its phrase, or another, with operands in words."""
        return (phrase or self.phrase).format(" to ".join(operands))


@cache
def _asks(demand: Callable[[Sequence[Value]], Demand], operands: int) -> frozenset[str]:
    asked = demand([Fraction(1)] * operands)
    return frozenset(name for name, value in asked._asdict().items() if value is not None)


@cache
def _is_one_point(demand: Callable[[Sequence[Value]], Demand]) -> bool:
    asked = demand([Fraction(1)])
    return asked.low is not None and asked.low == asked.high


def number(value: Value) -> Fraction:
    """A value that the loader has already found to be a number."""
    if not isinstance(value, Fraction):
        raise TypeError(f"{value!r} is no number")
    return value


def why_unreadable(operation: Operation, text: str, setting: Setting) -> str:
    """Why a fixed operand cannot be a value of a setting, or ""."""
    if operation.reads == RATIO:
        reason: object = read_quantity(text, "ratio")
    elif operation.reads == DIFFERENCE:
        reason = read_quantity(text, setting.kind, difference=True)
    else:
        value = read_value(setting, text)
        reason = value.reason if isinstance(value, Unreadable) else None
        if setting.kind == "choice" and text not in setting.values:
            reason = f"{text!r} is not one of {', '.join(setting.values)}"
    return reason if isinstance(reason, str) else ""
