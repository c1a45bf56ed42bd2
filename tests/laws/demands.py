"""Strategies for recipes and facts, and what they ask for, worked out apart from the package.

Bounds are drawn around one middle for each setting, so that they meet; ``test_intervals`` looks at those that do not.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any, NamedTuple

from hypothesis import strategies as st

from tests.laws.spellings import NUMBERS, Value, short

PRINTING_SPEEDS = (
    "first_layer.speed",
    "outer_wall.speed",
    "inner_wall.speed",
    "top.speed",
    "bottom.speed",
    "infill.speed",
    "bridge.speed",
    "support.speed",
    "raft.speed",
)
LAYERS = ("top.layers", "bottom.layers")
CANONICAL = {
    "speed": "mm/s",
    "length": "mm",
    "acceleration": "mm/s2",
    "temperature": "°C",
    "ratio": "%",
    "angle": "°",
    "duration": "s",
    "count": "",
}
# Other units in which a recipe may say the same, each with the exact number there.
ALIASES = {
    "speed": (("mm/min", 60, 0),),
    "length": (("um", 1000, 0),),
    "temperature": (("K", 1, "273.15"),),
    "ratio": (("fraction", Fraction(1, 100), 0),),
}
PLAUSIBLE = {
    "speed": ("1", "1000"),
    "temperature": ("0", "500"),
    "ratio": ("0", "100"),
    "angle": ("0", "90"),
    "count": ("0", "100"),
}
MACHINE_LIMITS = {
    "nozzle.temperature": "machine.maximum_nozzle_temperature",
    "bed.temperature": "machine.maximum_bed_temperature",
}
Facts = Mapping[str, str]
Values = Mapping[str, tuple[Value, ...]]


class Bounds(NamedTuple):
    """None: open."""

    low: Fraction | None = None
    high: Fraction | None = None

    def meet(self, other: Bounds) -> Bounds:
        lows = [end for end in (self.low, other.low) if end is not None]
        highs = [end for end in (self.high, other.high) if end is not None]
        return Bounds(max(lows, default=None), min(highs, default=None))

    def holds(self, value: Fraction) -> bool:
        return (self.low is None or value >= self.low) and (self.high is None or value <= self.high)

    def nearest(self, value: Fraction) -> Fraction:
        value = value if self.low is None else max(value, self.low)
        return value if self.high is None else min(value, self.high)


class Of(NamedTuple):
    """Another setting's derived value, times something."""

    setting: str
    times: Fraction


class Asked(NamedTuple):
    """A window that a fact gives, directly or as a recipe's input with a default. input: its name, or ""."""

    fact: str
    input: str = ""
    default: tuple[Fraction, Fraction] | None = None


@dataclass(frozen=True)
class Rule:
    """settings: as the recipe writes them. ops: operation -> values, Of, a word, or ``{"fact": name}``."""

    settings: tuple[str, ...]
    ops: Mapping[str, Any]
    when: Mapping[str, str] = field(default_factory=dict)
    leave: tuple[str, ...] = ()

    def members(self) -> Iterator[str]:
        for name in self.settings:
            yield from (
                item for item in (PRINTING_SPEEDS if name == "printing speeds" else (name,)) if item not in self.leave
            )

    def live(self, facts: Facts) -> bool | None:
        """Whether the rule holds; None when a fact is not known."""
        answers = [None if name not in facts else _meets(facts[name], wanted) for name, wanted in self.when.items()]
        return False if False in answers else None if None in answers else True

    def bounds(self, setting: str, facts: Facts, before: Values, after: Values) -> Bounds | None:
        """What the rule asks of a number; None when an operand is not known."""
        low = high = None
        for name, operand in self.ops.items():
            if name == "hold":
                return _held(setting, before, after)
            ends = _operand(operand, facts, after) if name in ("set", "cap", "raise_to", "window") else ()
            if ends is None:
                return None
            low = ends[0] if ends and name in ("set", "raise_to", "window") else low
            high = ends[-1] if ends and name in ("set", "cap", "window") else high
        return Bounds(low, high)


def _held(setting: str, before: Values, after: Values) -> Bounds | None:
    """Layers that are at least as thick together as they were: the lowest whole number, found by counting."""
    if setting not in before or "layer.height" not in before:
        return None
    wanted = before[setting][0] * before["layer.height"][0]
    return Bounds(Fraction(next(count for count in range(1000) if count * after["layer.height"][0] >= wanted)), None)


def _meets(fact: str, wanted: str) -> bool:
    if wanted.startswith(">"):
        return Fraction(fact.split()[0]) > Fraction(wanted[1:].split()[0])
    return fact == wanted


def _operand(operand: Any, facts: Facts, other: Values) -> tuple[Any, ...] | None:
    if isinstance(operand, Of):
        found = other.get(operand.setting)
        return (found[0] * operand.times,) if found and isinstance(found[0], Fraction) else None
    if isinstance(operand, Asked):
        text = facts.get(operand.fact, "")
        return tuple(Fraction(end.split()[0]) for end in text.split(" to ")) if text else operand.default
    return operand


@st.composite
def _texts(draw: st.DrawFn, setting: str, value: Fraction) -> str:
    """A quantity as a recipe may write it."""
    kind = NUMBERS[setting].kind
    unit, times, plus = draw(
        st.sampled_from(((CANONICAL[kind], 1, 0), (CANONICAL[kind], 1, 0), *ALIASES.get(kind, ())))
    )
    return f"{short(value * times + Fraction(plus))} {unit}".strip()


@dataclass(frozen=True)
class Book:
    """Recipes with their rules, facts, and the answers that the maker gives. texts: one TOML text for each recipe."""

    recipes: tuple[tuple[Rule, ...], ...]
    facts: Facts
    texts: tuple[str, ...] = ()

    def rules(self) -> Iterator[tuple[str, int, Rule]]:
        """Every rule with its recipe's name and its number."""
        for at, rules in enumerate(self.recipes):
            for number, rule in enumerate(rules, 1):
                yield f"recipe-{at}", number, rule

    def on(self, setting: str) -> list[Rule]:
        """The rules that hold for a setting, in their order."""
        return [rule for _, _, rule in self.rules() if setting in rule.members() and rule.live(self.facts)]

    def bounds(self, setting: str, before: Values, after: Values) -> Bounds | None:
        """Where all rules and hard limits together leave a number; None when no rule asks anything of it."""
        asked = [rule.bounds(setting, self.facts, before, after) for rule in self.on(setting)]
        known = [bounds for bounds in asked if bounds is not None]
        if not known:
            return None
        limit = self.facts.get(MACHINE_LIMITS.get(setting, ""))
        found = (
            Bounds(*map(Fraction, PLAUSIBLE[NUMBERS[setting].kind])) if NUMBERS[setting].kind in PLAUSIBLE else Bounds()
        )
        for bounds in (*known, Bounds(None, Fraction(limit.split()[0]) if limit else None)):
            found = found.meet(bounds)
        return found

    def aims(self, setting: str) -> list[Value]:
        """All aims at a setting, in their order: the last one counts."""
        return [rule.ops["aim"][0] for rule in self.on(setting) if "aim" in rule.ops]


class Middle:
    """For each setting the point that all bounds leave free, in steps of a tenth of the resolution."""

    def __init__(self, draw: st.DrawFn) -> None:
        self.draw, self.found = draw, {}

    def step(self, setting: str) -> Fraction:
        step = Fraction(NUMBERS[setting].step)
        return step if NUMBERS[setting].kind == "count" else step / 10

    def of(self, setting: str) -> Fraction:
        name = "printing speeds" if setting in PRINTING_SPEEDS else setting
        if name not in self.found:
            known, step = NUMBERS[setting], self.step(setting)
            low, high = Fraction(known.low), Fraction(known.high)
            self.found[name] = step * self.draw(st.integers(int(low / step) + 1, int(high / step) - 1))
        return self.found[name]

    def above(self, setting: str, inexact: bool) -> Fraction:
        at_least = 12 if inexact and NUMBERS[setting].kind != "count" else 0
        return self.of(setting) + self.step(setting) * self.draw(st.integers(at_least, 120))

    def below(self, setting: str, inexact: bool) -> Fraction:
        at_least = 12 if inexact and NUMBERS[setting].kind != "count" else 0
        low = self.of(setting) - self.step(setting) * self.draw(st.integers(at_least, 120))
        return max(low, Fraction(NUMBERS[setting].low))


@st.composite
def _asked(draw: st.DrawFn, middle: Middle, setting: str) -> Asked:
    part = setting.split(".")[0]
    default = (middle.of(setting) - 3, middle.of(setting) + 4)
    return draw(
        st.sampled_from(
            (
                Asked(f"spool.{part}_window"),
                Asked(f"spool.{part}_window", f"{part}_ends"),
                Asked(f"spool.{part}_window", f"{part}_range", default),
            )
        )
    )


@st.composite
def number_rules(draw: st.DrawFn, middle: Middle, setting: str, inexact: bool, aims: bool) -> Rule:
    """A rule of bounds on one setting or on the printing speeds, with an aim beside it at times."""
    if setting in LAYERS:
        return Rule((setting,), draw(st.sampled_from(({"hold": "thickness"}, {"raise_to": (middle.of(setting),)}))))
    names: tuple[str, ...] = (setting,)
    if setting in PRINTING_SPEEDS and draw(st.booleans()):
        names, inexact = ("printing speeds",), True
        draw(st.sampled_from(((), ("infill.speed",), ("outer_wall.speed", "top.speed"))))
    if setting == "travel.speed":
        return Rule(
            names,
            draw(
                st.sampled_from(
                    (
                        {"cap": Of("outer_wall.speed", Fraction("2.25"))},
                        {"raise_to": Of("outer_wall.speed", Fraction(1))},
                    )
                )
            ),
        )
    if setting in ("nozzle.temperature", "bed.temperature") and draw(st.integers(0, 3)) == 3:
        return Rule(names, {"window": draw(_asked(middle, setting))})
    words = (
        "cap",
        "cap",
        "raise_to",
        "raise_to",
        "window",
        "both",
        *(() if inexact else ("set",)),
        *(("aim",) if aims else ()),
    )
    word = draw(st.sampled_from(words))
    low, high = middle.below(setting, inexact), middle.above(setting, inexact)
    ops: dict[str, Any] = {
        "cap": {"cap": (high,)},
        "raise_to": {"raise_to": (low,)},
        "window": {"window": (low, high)},
        "both": {"cap": (high,), "raise_to": (low,)},
        "set": {"set": (middle.of(setting),)},
        "aim": {},
    }[word]
    if word == "aim" or (aims and word != "set" and draw(st.booleans())):
        ops = {**ops, "aim": (middle.of(setting) + middle.step(setting) * draw(st.integers(-60, 60)),)}
    return Rule(names, ops)


@st.composite
def word_rules(draw: st.DrawFn, wanted: Mapping[str, Value], setting: str) -> Rule:
    """A set or aim of a switch or choice; all sets of one setting agree."""
    return Rule((setting,), {draw(st.sampled_from(("set", "aim"))): (wanted[setting],)})


CONDITIONS: tuple[dict[str, str], ...] = (
    {},
    {},
    {},
    {},
    {},
    {"machine.drive": "remote"},
    {"machine.drive": "direct"},
    {"machine.tube_length": "> 300 mm"},
    {"machine.drive": "remote", "machine.tube_length": "> 300 mm"},
    {"part.coating": "elastic"},
)


@st.composite
def fact_sets(draw: st.DrawFn, middle: Middle) -> Facts:
    """Some facts; the windows contain each setting's middle."""
    facts = {
        "machine.drive": draw(st.sampled_from(("remote", "direct"))),
        "machine.tube_length": draw(st.sampled_from(("120 mm", "300 mm", "420 mm"))),
        "part.coating": "elastic",
    }
    for setting in ("nozzle.temperature", "bed.temperature"):
        ends = (middle.of(setting) - 5, middle.of(setting) + 5)
        facts[f"spool.{setting.split('.')[0]}_window"] = " to ".join(f"{short(end)} °C" for end in ends)
        facts[f"machine.maximum_{setting.split('.')[0]}_temperature"] = f"{short(middle.of(setting) + 1)} °C"
    return {name: text for name, text in facts.items() if draw(st.integers(0, 3))}
