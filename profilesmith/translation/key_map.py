"""KeyMap: which key of a text holds which setting, in which unit and spelling. Frozen data; reading it is next door."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Self

from profilesmith.foundation.comparison import Comparison
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.number import read_number
from profilesmith.foundation.place import Place
from profilesmith.foundation.quantity import CANONICAL, UNITS, Unit, split_quantity
from profilesmith.text.document import Habits

# Families of switch words that are known without a map; the counterpart is written in the same family and case.
SWITCH_WORDS = (("1", "0"), ("true", "false"), ("on", "off"), ("yes", "no"), ("enabled", "disabled"))


KEEP, FOLLOW = "keep", "follow"
WAYS = (KEEP, FOLLOW)
"""What becomes of a share whose reference moves: its setting keeps its value, or it moves too."""


class Binding(NamedTuple):
    """One setting's key. section None: whichever section holds it. field counts from 1.

    follows: a share moves with its reference; else it is rewritten, so that its setting keeps its value.
    """

    setting: str
    kind: str
    key: str
    place: Place
    section: str | None = None
    unit: Unit | None = None
    from_horizontal: bool = False
    relative_to: str = ""
    relative_key: str = ""
    choices: Mapping[str, tuple[str, ...]] = MappingProxyType({})
    on: tuple[str, ...] = ()
    off: tuple[str, ...] = ()
    on_when: Comparison | None = None
    split: str = ""
    field: int = 0
    tools: bool = False
    list: str = ""
    add: bool = False
    follows: bool = False
    thousands: str = ""

    @property
    def name(self) -> str:
        """The key as a person would point at it."""
        return f"[{self.section}] {self.key}" if self.section else self.key

    def rides(self, other: Self) -> bool:
        """Whether both stand in the very same place."""
        mine, theirs = (self.section, self.key, self.field), (other.section, other.key, other.field)
        return self is not other and mine == theirs and other.on_when is None

    @property
    def is_relative(self) -> bool:
        """Whether its text may be a share, of a setting or of another key."""
        return bool(self.relative_to or self.relative_key)

    @property
    def own_unit(self) -> Unit | None:
        """The unit of a bare number: the map's; else per cent for a share, else the canonical one."""
        if self.unit is not None:
            return self.unit
        if self.is_relative:
            return UNITS["%"]
        return UNITS.get(CANONICAL.get(self.kind, ""))

    def is_on(self, text: str, words: tuple[str, ...]) -> bool | None:
        """Whether a switch's text reads as on; None when it reads as neither. words: ``[text]``'s on and off."""
        if self.on_when is not None:
            number, _ = split_quantity(text.replace(",", "."))
            limit = read_number(self.on_when.operand)
            return None if number is None or limit is None else self.on_when.holds(number, limit)
        if self.on:
            return text in self.on
        if self.off:
            return text not in self.off
        if words:
            return True if text == words[0] else False if text == words[1] else None
        folded = text.casefold()
        return next((folded == family[0] for family in SWITCH_WORDS if folded in family), None)


class KeyMap(NamedTuple):
    """A whole map. words: ``[text]``'s on and off, () when not said; decimal: "" when to be detected.

    thousands: what divides the digits of large numbers into groups; every binding has it, too.
    not_bound: keys that hold no setting of the vocabulary, as ``key`` or ``[section] key``. sha256: of its file's
    bytes. proposed: setting -> key and line of a block that stands in the file as a comment, for a person to accept.
    """

    name: str
    about: str
    file: str
    bindings: tuple[Binding, ...]
    habits: Habits = Habits()
    decimal: str = ""
    words: tuple[str, ...] = ()
    list: str = ","
    duplicates: str = ""
    language: str = ""
    not_bound: tuple[str, ...] = ()
    thousands: str = ""
    sha256: str = ""
    proposed: Mapping[str, tuple[str, int]] = MappingProxyType({})

    def leaves_alone(self, section: str, key: str) -> bool:
        """Whether a person has said that a key holds none of the settings."""
        return bool(self.not_bound) and (key in self.not_bound or f"[{section}] {key}" in self.not_bound)

    def binding(self, setting: str) -> Binding | None:
        return next((binding for binding in self.bindings if binding.setting == setting), None)

    def with_shares(self, way: str) -> Self:
        """The map for a run that says what becomes of all shares: KEEP or FOLLOW; "" for what the map says."""
        if not way:
            return self
        return self._replace(bindings=tuple(binding._replace(follows=way == FOLLOW) for binding in self.bindings))

    def sharers(self) -> tuple[tuple[Binding, ...], ...]:
        """Switches that share one key, which can hold one of them as on: each has texts of its own for it."""
        by_place: dict[tuple[str | None, str, int], tuple[Binding, ...]] = {}
        for binding in self.bindings:
            if binding.kind == "switch" and binding.on_when is None:
                place = binding.section, binding.key, binding.field
                by_place[place] = (*by_place.get(place, ()), binding)
        return tuple(bindings for bindings in by_place.values() if len(bindings) > 1)

    def number_of(self, switch: Binding) -> Binding | None:
        """The setting whose number a switch is read off, if it is bound too."""
        if switch.on_when is None:
            return None
        return next((binding for binding in self.bindings if switch.rides(binding)), None)
