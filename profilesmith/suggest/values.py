"""What a slot's value says for a setting: in which units it could be read, and how well it would fit.

A fit is the logarithm of how much likelier the value is for this setting than for any key at all.
"""

import re
from collections.abc import Iterable, Iterator
from math import log

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.quantity import UNITS
from profilesmith.suggest.ideas import Schema, Schemas
from profilesmith.suggest.key_words import fold
from profilesmith.suggest.lexicon import Lexicon
from profilesmith.suggest.modes import NO_YES, off_text
from profilesmith.suggest.shapes import are_shapes, pattern_of
from profilesmith.suggest.slot import Slot
from profilesmith.suggest.switch_words import YES_NO
from profilesmith.translation.key_map import SWITCH_WORDS

# Numbers of settings texts lie between a thousandth and some ten thousands: this many e-folds.
SPREAD = log(2e7)
TAIL = 0.12  # the share of working values outside the typical range
BEST, WORST = 3.2, -4.0
SHARE_RANGE, SHARE_ENDS = (25.0, 160.0), (5.0, 600.0)  # per cent: what a share of another setting mostly is, and ever
# What single ones mostly are; common practice, no source.
SHARE_RANGES = {
    "travel.speed": (130.0, 450.0),
    "first_layer.speed": (20.0, 90.0),
    "bridge.speed": (30.0, 120.0),
    "outer_wall.speed": (45.0, 115.0),
    "inner_wall.speed": (70.0, 180.0),
    "infill.speed": (80.0, 240.0),
    "raft.speed": (25.0, 130.0),
    "travel.acceleration": (90.0, 350.0),
    "first_layer.acceleration": (15.0, 90.0),
    "outer_wall.acceleration": (35.0, 115.0),
    "first_layer.height": (75.0, 160.0),
    "layer.height": (20.0, 80.0),
}


TICKED = ("[x]", "[X]", "[✓]", "(x)", "(X)", "☑", "☒")
TICKS = {**dict.fromkeys(TICKED, ""), "[ ]": "[x]", "( )": "(x)", "☐": "☑"}
"""Boxes; of those that are not ticked, what a ticked one looks like."""


class Way(NamedTuple):
    """How a number is read: its unit, "" for a count; share: as a share of another setting."""

    unit: str
    share: bool = False


class Fit(NamedTuple):
    """A way of reading a value and how well it fits."""

    way: Way
    gain: float


# How often each unit is met where nothing is said: common practice, no source.
USUAL: dict[str, dict[str, float]] = {
    "length": {
        "mm": 0.66,
        "um": 0.12,
        "in": 0.08,
        "mil": 0.02,
        "cm": 0.08,
        "m": 0.02,
        "1/100 mm": 0.001,
        "1/10 mm": 0.001,
    },
    "speed": {
        "mm/s": 0.56,
        "mm/min": 0.24,
        "m/min": 0.04,
        "cm/s": 0.04,
        "cm/min": 0.03,
        "in/s": 0.05,
        "in/min": 0.03,
        "m/s": 0.01,
    },
    "acceleration": {"mm/s2": 0.92, "m/s2": 0.04, "in/s2": 0.03, "cm/s2": 0.01},
    "temperature": {"°C": 0.84, "°F": 0.1, "K": 0.06},
    "ratio": {"%": 0.6, "fraction": 0.3, "0-255": 0.1, "‰": 0.001},
    "angle": {"°": 0.93, "rad": 0.07},
    "duration": {"s": 0.82, "ms": 0.09, "min": 0.07, "h": 0.005},
    "flow": {"mm3/s": 0.95, "cm3/h": 0.03},
    "count": {"": 1.0},
}
SAID_ONLY = frozenset({"1/100 mm", "1/10 mm", "‰"})
"""Units of numbers without one that a text must name before any is read in them."""
_ONE_IS = re.compile(r"\W*[01]\s*(?:=|:|is\b|means\b)\s*[^\W\d]")  # "(1 = flat border round the foot)"
TOLD = 1.6  # for a switch, that a remark says what its texts mean
LONGEST_COURTESY = 8  # letters behind a yes or no
SHARES = {"%": 0.02, "fraction": 0.008}
FANS = frozenset({"fan.power", "fan.minimum_power", "bridge.fan"})


# Settings that texts write as a share of another one.
SHARED = frozenset(
    (
        "layer.height",
        "first_layer.height",
        "first_layer.bead_width",
        "bead.width",
        "outer_wall.bead_width",
        "retraction.lift",
        "support.gap",
        "support.side_gap",
        "bridge.fan",
    )
)
_FLOATS = {name: (float(unit.zero), float(unit.factor)) for name, unit in UNITS.items()}


def find_fits(
    slot: Slot, schemas: Schemas, lexicon: Lexicon, stated: Iterable[str] = ()
) -> Iterator[tuple[Schema, list[Fit]]]:
    """Every setting whose kind and range allow a slot's value, with the ways in which it could be read. stated: the
    units that the text names.
    """
    if slot.mode:
        yield from ((schema, [Fit(Way(""), TOLD)]) for schema in schemas.kinds["switch"])
        return
    shapes = are_shapes(slot.told, lexicon)
    if slot.number is not None and slot.told != NO_YES and not shapes:
        for kind, members in schemas.kinds.items():
            if kind in USUAL and (kind == "count" or not slot.counted):
                yield from _numbers(slot, kind, members, (*slot.units, *stated))
    if not slot.field and slot.unit is None and not slot.counted:
        switch = [] if shapes else list(_switch(slot, lexicon))
        choice = [] if slot.tools or slot.told == NO_YES else list(_choice(slot, lexicon))
        yield from ((schema, switch) for schema in schemas.kinds["switch"] if switch)
        yield from ((schema, choice) for schema in schemas.kinds["choice"] if choice)


def _numbers(
    slot: Slot, kind: str, members: tuple[Schema, ...], stated: tuple[str, ...]
) -> Iterator[tuple[Schema, list[Fit]]]:
    """The settings of one kind: the number is turned into each unit once for all of them."""
    number = float(slot.number or 0)
    read: list[tuple[Way, float]] = []
    degrees = slot.unit is not None and slot.unit.name == "°" and kind == "temperature"  # of a scale that is not said
    if slot.unit is None or slot.unit.kind == kind or degrees:
        bare = [name for name in USUAL[kind] if name not in SAID_ONLY or name in stated]
        for name in ("°C", "°F") if degrees else [slot.unit.name] if slot.unit else bare:
            zero, factor = _FLOATS.get(name, (0.0, 1.0))
            read.append((Way(name), (number - zero) * factor))
    if kind == "speed" and slot.unit is not None and slot.unit.kind == "length":
        for name in (slot.unit.name + time for time in ("/s", "/min") if time in stated):
            read += [(Way(name), number * _FLOATS[name][1])] if name in _FLOATS else []
    shares: dict[tuple[float, float], list[Fit]] = {}
    percents: list[tuple[Way, float]] = []
    if slot.unit is None or slot.unit.kind == "ratio":
        for name in [slot.unit.name] if slot.unit else SHARES:
            percent = number * _FLOATS[name][1]
            if SHARE_ENDS[0] <= percent <= SHARE_ENDS[1]:
                percents.append((Way(name, True), percent))
    for schema in members:
        name = schema.setting.id
        fits = [Fit(way, gain) for way, value in read if (gain := _gain(value, way, schema)) is not None]
        if (
            percents
            and not schema.other
            and name != "retraction.speed"
            and (name != "layer.height" or slot.unit is not None)
            and (kind in ("speed", "acceleration") or name in SHARED)
        ):
            usual = SHARE_RANGES.get(name, SHARE_RANGE)
            if usual not in shares:
                shares[usual] = [Fit(way, _density(percent, *usual, *SHARE_ENDS)) for way, percent in percents]
            fits += shares[usual]
        if fits:
            yield schema, fits


def _gain(value: float, way: Way, schema: Schema) -> float | None:
    """How well a canonical value fits; None when it cannot be."""
    if not schema.low <= value <= schema.high or (way.unit == "" and value != int(value)):
        return None
    if way.unit == "0-255" and schema.setting.id not in FANS:
        return None
    if value <= 0:
        return -0.6
    gain = _density(value, schema.typical[0], schema.typical[1], max(schema.low, 1e-3), schema.high)
    return gain + 1.2 if any(abs(value - common) <= 1e-6 * common for common in schema.common) else gain


def _density(value: float, a: float, b: float, low: float, high: float) -> float:
    """Log-uniform inside the typical range, thinning out to the ends of the plausible one."""
    a = max(a, low)
    if a <= value <= b:
        return min(BEST, log((1 - TAIL) * SPREAD / log(b / a)))
    away = log(a / value) if value < a else log(value / b)
    return max(WORST, min(BEST, log(TAIL * SPREAD / max(log(high / low), 1.0))) - 1.5 * away)


def is_on(text: str, lexicon: Lexicon) -> bool | None:
    """What a switch's word says, in the languages that are known."""
    if text in TICKS:
        return not TICKS[text]
    folded = text.casefold()
    for yes, no in SWITCH_WORDS:
        if folded in (yes, no):
            return folded == yes
    plain = fold(text)
    head, _, rest = plain.partition(" ")
    if rest and len(rest) <= LONGEST_COURTESY and head in YES_NO:  # "yes please"
        plain = head
    return True if plain in lexicon.on else False if plain in lexicon.off else None


def _switch(slot: Slot, lexicon: Lexicon) -> Iterator[Fit]:
    if slot.number is not None:
        if (slot.told and off_text(slot.told, lexicon)) or (slot.text in NO_YES and _ONE_IS.match(slot.remark_text)):
            yield Fit(Way(""), TOLD)
        elif slot.number.denominator == 1 and 0 <= slot.number <= 9 and slot.first.isdigit():
            yield Fit(Way(""), 0.4 if slot.number <= 1 else -0.9)
    elif is_on(slot.first, lexicon) is not None:
        usual = any(slot.first.casefold() in family for family in SWITCH_WORDS)
        yield Fit(Way(""), 2.2 if usual else 1.6)
    elif slot.text.isalpha() and len(slot.text) <= 12:
        yield Fit(Way(""), -2.6)


def _choice(slot: Slot, lexicon: Lexicon) -> Iterator[Fit]:
    if pattern_of(slot.told.get(slot.text, ""), lexicon):
        yield Fit(Way(""), 2.8)
    elif pattern_of(slot.shapes.get(slot.text, ""), lexicon):
        yield Fit(Way(""), 1.5)
    elif slot.number is not None:
        if slot.text.isdigit() and slot.number <= 30:
            yield Fit(Way(""), 0.2)
    elif pattern_of(slot.text, lexicon):
        yield Fit(Way(""), 2.8)
    elif is_on(slot.text, lexicon) is None and slot.text.replace("-", "").replace(" ", "").replace("_", "").isalpha():
        yield Fit(Way(""), -0.2)
