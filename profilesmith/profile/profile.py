"""Profile: setting -> values in canonical units, with where each came from and what can be written there.

Absent: why a setting that the map binds has no value in a text.
"""

from collections.abc import Mapping
from fractions import Fraction
from typing import Literal, Self, get_args

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.number import less
from profilesmith.vocabulary.setting import Value

AbsentCode = Literal[
    "key missing",
    "key elsewhere",
    "key blank",
    "key is zero",
    "key has no value",
    "reference has no value",
    "only proposed",
]
ABSENT: tuple[AbsentCode, ...] = get_args(AbsentCode)


class Absent(NamedTuple):
    """names: the key first, then by code.

    ``key missing``: section, nearest key ("" for none); ``key elsewhere``: section, the sections that have it;
    ``key blank``: where it stands. The key that it is a share of ``key is zero`` or ``key has no value``; of
    ``reference has no value`` it is a setting. ``only proposed``: the place of the block in the map that nobody has
    accepted yet.
    """

    code: AbsentCode
    names: tuple[str, ...]

    @property
    def is_slip(self) -> bool:
        """Whether the map has a key that the text has not: a slip in the one or the other."""
        return self.code in ("key missing", "key elsewhere", "key blank")


def absent_words(absent: Absent) -> str:
    """A clause that says it."""
    key, *more = absent.names
    if absent.code == "only proposed":
        return f"proposed at {more[0]} ({key!r}), not accepted yet"
    if absent.code == "key blank":
        return f"the key {key!r} has no value in {more[0]}"
    if absent.code in ("key missing", "key elsewhere"):
        section, *others = more
        where = f" in section {section!r}" if section else ""
        if absent.code == "key elsewhere":
            return f"the key {key!r} is not{where}, but in {', '.join(map(repr, others))}"
        near = f" (did you mean {others[0]!r}?)" if others[0] else ""
        return f"the key {key!r} is not in the text{where}{near}"
    if absent.code == "reference has no value":
        return f"it is a share of {key}, which has no value here"
    return f"it is a share of {key!r}, which {'is 0' if absent.code == 'key is zero' else 'has no value'}"


_make = tuple.__new__  # a third of the time of a NamedTuple's own


class Grid(NamedTuple):
    """The numbers that a text can hold: ``zero + k * step`` for whole k, in the canonical unit.

    A step of 0 means that any number can be held. For a value written relative to another setting,
    ``step`` and ``zero`` count in shares of that setting's value (1 is the whole of it).
    whole: the text holds whole numbers only (a count, a duty byte), so no finer step exists.
    """

    step: Fraction = Fraction()
    zero: Fraction = Fraction()
    whole: bool = False

    def scaled(self, reference: Fraction) -> Self:
        step, zero, whole = self
        return _make(type(self), (step * reference, zero * reference if zero else zero, whole))

    def nearest(self, value: Fraction) -> Fraction:
        """The writable number nearest to a value; halves go up."""
        if not self.step:
            return value
        step, above = abs(self.step), value - self.zero if self.zero else value
        top, bottom = above.numerator * step.denominator, above.denominator * step.numerator
        whole = (top * 2 + bottom) // (bottom * 2)
        number = Fraction(whole * step.numerator, step.denominator)
        return self.zero + number if self.zero else number

    def inside(self, value: Fraction, low: Fraction | None, high: Fraction | None) -> Fraction | None:
        """The writable number nearest to a value that is not past a bound; None where there is none.

        Where no writable number lies inside the bounds the step is made finer, up to six more decimals.
        """
        grid: Grid = self
        for _ in range(1 if self.whole else 7):
            number = nearest = grid.nearest(value)
            if high is not None and less(high, number):
                number -= abs(grid.step)
            if low is not None and less(number, low):
                number += abs(grid.step)
            if number is nearest:
                return number  # as mostly
            if not (high is not None and less(high, number)) and not (low is not None and less(number, low)):
                return number
            grid = Grid(grid.step / 10, grid.zero)
        return None


class Origin(NamedTuple):
    """Where a value stands. document: which of the base files; text: the value as written; section: "" for none."""

    file: str
    line: int
    key: str
    text: str
    document: int = 0
    section: str = ""


NOWHERE = Origin("", 0, "", "")
"""Of what no text says."""


class Coupling(NamedTuple):
    """A number whose key is a switch as well (0 is off). lowest: the least number that still reads as on.

    on_value: what turning it on writes; None where the map does not say.
    """

    switch: str
    on_value: Fraction | None
    off_value: Fraction
    lowest: Fraction | None


class OneKey(NamedTuple):
    """Switches that share a key, which can hold one of them as on."""

    key: str
    settings: tuple[str, ...]


class Departure(NamedTuple):
    """How a text departs from what its map says. text: the piece of it; the rest as the code needs it.

    ``other-unit``: other: the map's unit, "" for none. ``reads-as-on``, ``reads-as-off``: a switch's text that the map
    does not name; names, others: its texts for on and off. ``no-choice``: names: the choices without an entry.
    ``no-switch``: it turns on none of the switches ``names``. ``lines-below``: lines: the first and the last that
    are no part of the value.
    """

    code: str
    text: str = ""
    other: str = ""
    names: tuple[str, ...] = ()
    others: tuple[str, ...] = ()
    lines: tuple[int, ...] = ()


class Entry(NamedTuple):
    """One setting's values, one for each tool (mostly one).

    grids: one for each value. relative_to: the setting that the text writes this one relative to; shares: per value
    the share as read (1 is the whole), None where absolute. held: a share is rewritten when its reference moves, so
    that the value stays; else it follows. unit: in which the map reads bare numbers; "" where the text says its own.
    writable: the choices, or states of a switch, that the text can hold; None for any. departures: from the
    map.
    """

    setting: str
    values: tuple[Value, ...]
    origin: Origin
    grids: tuple[Grid, ...] = ()
    relative_to: str = ""
    shares: tuple[Fraction | None, ...] = ()
    held: bool = False
    departures: tuple[Departure, ...] = ()
    writable: tuple[Value, ...] | None = None
    coupling: Coupling | None = None
    unit: str = ""

    @property
    def value(self) -> Value:
        """The first tool's value."""
        return self.values[0]

    def at(self, origin: Origin) -> Self:
        """The same at another place: ``_replace`` takes four times as long, and every value of a text is placed."""
        return _make(type(self), (*self[:2], origin, *self[3:]))

    def holding(self, values: tuple[Value, ...], shares: tuple[Fraction | None, ...]) -> Self:
        """The same with other values; as quick."""
        return _make(type(self), (self.setting, values, *self[2:5], shares, *self[6:]))


class Profile(NamedTuple):
    """All that was read from one or several files of one machine.

    addable: settings that the map may add to the text, with the grid that they would be written on.
    absent: why a setting of the map has no value here (its key is missing or blank).
    one_keys: switches of which only one can be on.
    """

    entries: Mapping[str, Entry]
    addable: Mapping[str, Grid]
    absent: Mapping[str, Absent]
    one_keys: tuple[OneKey, ...] = ()

    def values(self, setting: str) -> tuple[Value, ...]:
        """The values of a setting; () when the profile has none."""
        entry = self.entries.get(setting)
        return entry.values if entry else ()

    def number(self, setting: str, tool: int = 0) -> Fraction | None:
        """A setting's number for a tool (the only one, where there is one for all); None when not known."""
        values = self.values(setting)
        if not values:
            return None
        value = values[tool] if tool < len(values) else values[0]
        return value if isinstance(value, Fraction) else None

    def in_full(self, setting: str) -> Entry:
        """An entry as if no share was written: its values may be the numbers that its shares make of the reference."""
        entry = self.entries[setting]
        grids = list(entry.grids)
        for tool, (grid, share) in enumerate(zip(entry.grids, entry.shares, strict=False)):
            if share is not None:
                reference = self.number(entry.relative_to, tool)
                grids[tool] = grid.scaled(reference) if reference else Grid()
        return entry._replace(grids=tuple(grids), relative_to="", shares=())


def profile_of(values: Mapping[str, tuple[Value, ...]]) -> Profile:
    """A profile without a text behind it, as examples and tests use it."""
    entries = {
        name: Entry(setting=name, values=held, origin=NOWHERE, grids=(Grid(),) * len(held))
        for name, held in values.items()
    }
    return Profile(entries=entries, addable={}, absent={})
