"""Setting, Group, Vocabulary: one physical or geometric quantity of a print each, named ``feature.property``."""

from collections.abc import Mapping
from fractions import Fraction

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.number import decimal_text, less, plain_text
from profilesmith.foundation.quantity import CANONICAL, find_unit, read_quantity, show_quantity

Value = Fraction | bool | str
"""A canonical value: a number for quantities and counts, true or false for a switch, a word for a choice."""
SEE_SETTINGS = "See 'profilesmith vocabulary'."
"""Where all settings are."""


class Setting(NamedTuple):
    """One setting. low, high and step are in the canonical unit of its kind; None for switch and choice.

    usual: what nearly all profiles hold.
    """

    id: str
    kind: str
    area: str
    meaning: str
    low: Fraction | None = None
    high: Fraction | None = None
    step: Fraction | None = None
    words: tuple[str, ...] = ()
    values: tuple[str, ...] = ()
    usual: tuple[Fraction, Fraction] | None = None

    @property
    def is_number(self) -> bool:
        return self.low is not None

    @property
    def unit(self) -> str:
        return CANONICAL.get(self.kind, "")

    def show(self, value: Value) -> str:
        """A value for a person: ``40 mm/s``, ``on``, ``gyroid``."""
        if isinstance(value, bool):
            return "on" if value else "off"
        if isinstance(value, str):
            return value
        return show_quantity(value, self.kind)

    def written(self, value: Value) -> str:
        """A value as recipes write it: to six decimals."""
        if isinstance(value, Fraction):
            return f"{decimal_text(value, 6)} {self.unit}".rstrip()
        return self.show(value)

    def range_text(self) -> str:
        if self.low is None or self.high is None:
            return "on or off" if self.kind == "switch" else ", ".join(self.values)
        return f"{plain_text(self.low)} to {self.show(self.high)}"

    def is_usual(self, value: Value) -> bool:
        """Whether most profiles hold a value near this one; zero is usual where it is plausible."""
        if self.usual is None or type(value) is not Fraction or not value:
            return True
        return not less(value, self.usual[0]) and not less(self.usual[1], value)

    def implausible(self, value: Value) -> str:
        """A sentence that says why a value cannot be right, or ""."""
        if self.low is None or self.high is None or not isinstance(value, Fraction):
            return ""
        if self.kind == "count" and value.denominator != 1:
            return f"{self.show(value)}, which is no whole number"
        if not less(value, self.low) and not less(self.high, value):
            return ""
        return f"{self.show(value)}, outside the plausible {self.range_text()}"

    def oddities(self, values: tuple[Value, ...]) -> tuple[str, ...]:
        """Why values cannot be right, each sentence once."""
        if len(values) == 1:  # as mostly; a set of fractions takes longer than all else
            odd = self.implausible(values[0])
            return (odd,) if odd else ()
        return tuple(filter(None, map(self.implausible, dict.fromkeys(values))))


class Unreadable(NamedTuple):
    """Why a text is no value of a setting."""

    reason: str


def read_value(setting: Setting, text: str) -> Value | Unreadable:
    """A canonical value from the text of a recipe, an answer or an example."""
    if setting.kind == "switch":
        words = {"on": True, "off": False}
        return words[text] if text in words else Unreadable(f'{text!r} is neither "on" nor "off"')
    if setting.kind == "choice":
        return text if text else Unreadable("the choice is empty")
    read = read_quantity(text, setting.kind)
    return Unreadable(read) if isinstance(read, str) else read


class Group(NamedTuple):
    """A named group of settings that rules may address."""

    name: str
    meaning: str
    members: tuple[str, ...]


class Vocabulary(NamedTuple):
    """All settings, groups and areas; the order of ``settings`` is the order of a review."""

    settings: Mapping[str, Setting]
    groups: Mapping[str, Group]
    areas: Mapping[str, str]

    def expand(self, name: str) -> tuple[str, ...]:
        """The settings that a name means: itself, or a group's members; () when unknown."""
        if name in self.settings:
            return (name,)
        group = self.groups.get(name)
        return group.members if group else ()

    def names(self) -> list[str]:
        return [*self.settings, *self.groups]


def resolution_in(setting: Setting, unit_name: str) -> Fraction | None:
    """The setting's resolution as a step of numbers in another unit."""
    unit = find_unit(unit_name) if unit_name else None
    if setting.step is None or unit is None:
        return setting.step
    return setting.step / unit.factor


__all__ = ["Group", "Setting", "Unreadable", "Value", "Vocabulary", "read_value", "resolution_in"]
