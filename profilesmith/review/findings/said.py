"""What the words of one finding are made of: its numbers by name, each shown as people write it."""

from collections.abc import Callable
from typing import NamedTuple

from profilesmith.checks.amounts import degrees, mm, shown, span
from profilesmith.ledger.judgement import Amount, Finding

Say = Callable[["Numbers"], str]


class Words(NamedTuple):
    """title: what is looked at. say: the sentences."""

    title: str
    say: Say


def fixed(text: str) -> Say:
    """Sentences without a number."""
    return lambda _: text


class Numbers:
    """A finding's numbers and names, for the sentences about it."""

    def __init__(self, finding: Finding) -> None:
        self.names = finding.names
        self.amounts = {item.name: item for item in finding.amounts}

    def __getitem__(self, name: str) -> str:
        """``205 °C``."""
        return show(self.amounts[name])

    def get(self, name: str) -> str:
        """The same; "" for a number that is not known."""
        return self[name] if name in self.amounts else ""


def show(amount: Amount) -> str:
    """``205 °C``, ``1.26 mm``, ``1 to 2.3 mm/s``."""
    if amount.low != amount.high:
        return span(amount.low, amount.high, amount.unit)
    if amount.unit == "°C":
        return degrees(amount.low)
    return mm(amount.low) if amount.unit == "mm" else shown(amount.low, amount.unit)
