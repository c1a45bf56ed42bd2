"""Random recipes hidden behind random pairs: what distilling is measured with. Seeded, so that every run is the same.

Parameters are numbers as people write them (5 mm/s, 10 %, 0.5 mm), and lie so that bases fall on either side of them:
no nearer to an end of the bases' range than a tenth of it. Bases are any numbers on each setting's own step.
"""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import NamedTuple

from profilesmith.distil.law import text_of
from profilesmith.distil.sample import Sample
from profilesmith.facts.facts import Fact, Facts
from profilesmith.foundation.place import Place
from profilesmith.profile.profile import Entry, Grid, Origin, Profile
from profilesmith.recipe.apply_recipes import apply_recipes
from profilesmith.recipe.operations import BY_NAME
from profilesmith.recipe.recipe import Action, Clause, FactRef, Fixed, Operand, Recipe, Rule, SettingRef
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Value

VOCABULARY = load_vocabulary()
REFERENCE, SHARED = "outer_wall.speed", 0.4  # what shares are of, and the part of the other speeds that are shares
SPEEDS = ("first_layer.speed", "outer_wall.speed", "inner_wall.speed", "top.speed", "infill.speed", "support.speed")


class Range(NamedTuple):
    """low to high in steps of ``step`` for bases; rules are written in steps of ``round``. places: decimals of a
    file.
    """

    low: str
    high: str
    step: str
    round: str
    places: int

    def draw(self, chance: random.Random, step: str) -> Fraction:
        low, high, width = Fraction(self.low), Fraction(self.high), Fraction(step)
        return width * chance.randint(int(low / width), int(high / width))


NUMBERS: Mapping[str, Range] = {
    **{name: Range("10", "100", "0.5", "5", 0) for name in SPEEDS},
    "travel.speed": Range("60", "250", "1", "10", 0),
    "retraction.speed": Range("10", "60", "0.5", "5", 0),
    "nozzle.temperature": Range("180", "250", "1", "5", 0),
    "bed.temperature": Range("30", "90", "1", "5", 0),
    "infill.density": Range("2", "60", "1", "5", 0),
    "support.density": Range("2", "60", "1", "5", 0),
    "retraction.distance": Range("0.2", "6", "0.1", "0.5", 1),
    "layer.minimum_time": Range("2", "30", "1", "5", 0),
    "print.acceleration": Range("300", "3000", "10", "100", 0),
    "wall.count": Range("1", "8", "1", "1", 0),
    "support.gap": Range("0.05", "0.4", "0.01", "0.05", 2),
}
SWITCHES = ("raft.on", "support.on")
WINDOW = "spool.nozzle_window"
DRIVE = "machine.drive"


class Case(NamedTuple):
    """A hidden recipe and pairs that it explains."""

    recipe: Recipe
    samples: tuple[Sample, ...]


def case(seed: int, pairs: int, noise: bool = False, way: str = "") -> Case:
    """Case number ``seed`` with so many pairs, each of a machine of its own.

    way: "keep" or "follow": some speeds are written as shares of the outer wall's, and keep what they come to or
    follow.
    """
    chance = random.Random(seed)
    rules: list[Rule] = []
    for named, actions, when, excluded in _rules(chance):
        members = tuple(name for part in named for name in VOCABULARY.expand(part) if name not in excluded)
        rules.append(Rule(len(rules) + 1, named, members, (actions,), when))
    recipe = recipe_of("hidden", tuple(rules))
    private = random.Random(f"private {seed}")  # so that the same case is there without noise
    samples = []
    for number in range(pairs):
        base, facts = _base(chance, noise), _facts(chance)
        if way:
            base = _with_shares(random.Random(f"shares {seed} {number}"), base, way)
        tuned = apply_recipes(base, [recipe], facts, {}, VOCABULARY).derived
        samples.append(_sample(private, number, base, tuned, facts, noise))
    return Case(recipe, tuple(samples))


Wanted = tuple[tuple[str, ...], Action, tuple[Clause, ...], tuple[str, ...]]


def _rules(chance: random.Random) -> list[Wanted]:
    found: list[Wanted] = []
    grouped = chance.random() < 0.5
    if grouped:
        first = chance.random() < 0.4
        cap = Fraction(chance.randint(4, 12) * 5)
        excluded = ("first_layer.speed",) if first else ()
        found.append((("printing speeds",), _action("cap", (cap,), "outer_wall.speed"), (), excluded))
        if first:
            found.append((("first_layer.speed",), _action("cap", (cap / 2,), "first_layer.speed"), (), ()))
    for name in NUMBERS:
        if chance.random() < 0.4 and not (grouped and name in SPEEDS):
            found.append(((name,), *_number_rule(chance, name), ()))
    found += [
        ((name,), Action("set", (Fixed(chance.choice(("on", "off"))),)), (), ())
        for name in SWITCHES
        if chance.random() < 0.4
    ]
    return found


def _number_rule(chance: random.Random, name: str) -> tuple[Action, tuple[Clause, ...]]:
    known = NUMBERS[name]
    if name == "nozzle.temperature" and chance.random() < 0.3:
        return Action("window", (FactRef(WINDOW),)), ()
    if name == "travel.speed" and chance.random() < 0.3:
        return Action("cap", (SettingRef("outer_wall.speed", Fraction(chance.choice(("2", "2.5", "3")))),)), ()
    when = (
        (Clause(DRIVE, (chance.choice(("direct", "remote")),)),)
        if name.startswith("retraction") and chance.random() < 0.3
        else ()
    )
    kind = chance.choice(("cap", "raise_to", "set", "window", "scale", "shift"))
    if name.endswith("temperature") and kind == "scale":
        kind = "shift"
    low, high = Fraction(known.low), Fraction(known.high)
    inner = [
        end
        for end in (known.draw(chance, known.round) for _ in range(20))
        if low * 9 + high <= end * 10 <= low + high * 9
    ]
    ends = sorted(set(inner[:6]))
    values: Sequence[Fraction] = (ends[len(ends) // 2],)
    if kind == "window":
        values = (ends[0], ends[-1])
    elif kind == "scale":
        values = (Fraction(chance.choice((50, 60, 70, 75, 80, 90, 110, 120, 130, 150))),)
    elif kind == "shift":
        values = (Fraction(known.round) * chance.choice((-2, -1, 1, 2)),)
    return _action(kind, values, name), when


def _action(kind: str, values: Sequence[Fraction], name: str) -> Action:
    operands: tuple[Operand, ...] = tuple(
        Fixed(text_of(BY_NAME[kind], value, VOCABULARY.settings[name])) for value in values
    )
    return Action(kind, operands)


def _facts(chance: random.Random) -> Facts:
    low = Fraction(chance.randint(39, 46) * 5)
    values = {DRIVE: chance.choice(("direct", "remote")), WINDOW: (low, low + 10)}
    return {name: Fact(value, Place()) for name, value in values.items()}  # type: ignore[arg-type]


def _base(chance: random.Random, noise: bool) -> Profile:
    entries = {}
    for name, known in NUMBERS.items():
        value = known.draw(chance, known.step)
        if noise:
            value = _rounded(value, known.places)
        entries[name] = _entry(name, value)
    for name in SWITCHES:
        entries[name] = _entry(name, chance.random() < 0.5)
    return Profile(entries, {}, {})


def _with_shares(chance: random.Random, base: Profile, way: str) -> Profile:
    """Some speeds as shares of the outer wall's, in whole per cent."""
    entries = dict(base.entries)
    whole = entries[REFERENCE].value
    assert isinstance(whole, Fraction)
    for name in SPEEDS:
        value = entries[name].value
        if name == REFERENCE or chance.random() >= SHARED:
            continue
        assert isinstance(value, Fraction)
        share = max(_rounded(value / whole, 2), Fraction(1, 100))
        entries[name] = entries[name]._replace(
            values=(share * whole,),
            shares=(share,),
            relative_to=REFERENCE,
            grids=(Grid(Fraction(1, 100)),),
            held=way == "keep",
        )
    return base._replace(entries=entries)


def _entry(name: str, value: Value) -> Entry:
    step = VOCABULARY.settings[name].step
    whole = VOCABULARY.settings[name].kind == "count"
    return Entry(
        setting=name, values=(value,), origin=Origin("", 0, "", ""), grids=(Grid(step or Fraction(0), whole=whole),)
    )


def _rounded(value: Fraction, places: int) -> Fraction:
    scale = 10**places
    return Fraction((value * scale * 2 + 1).__floor__() // 2, scale)


def _sample(chance: random.Random, number: int, base: Profile, tuned: Profile, facts: Facts, noise: bool) -> Sample:
    entries = dict(tuned.entries)
    written = {}
    if noise:
        for name, known in NUMBERS.items():
            value = entries[name].value
            assert isinstance(value, Fraction)
            if chance.random() < 0.05:
                value = known.draw(chance, known.step)
            entries[name] = entries[name]._replace(values=(_rounded(value, known.places),))
            written[name] = (Fraction(1, 10**known.places),)
        for name in SWITCHES:
            if chance.random() < 0.05:
                entries[name] = entries[name]._replace(values=(not entries[name].value,))
    return Sample(f"pair {number + 1}", f"machine {number + 1}", base, tuned._replace(entries=entries), facts, written)


def laws_by_setting(recipe: Recipe) -> dict[str, tuple[tuple[Action, tuple[Clause, ...]], ...]]:
    """What a recipe asks of each setting."""
    found: dict[str, list[tuple[Action, tuple[Clause, ...]]]] = {}
    for rule in recipe.rules:
        for name in rule.settings:
            found.setdefault(name, []).extend((action, rule.when) for action in rule.actions)
    return {name: tuple(items) for name, items in found.items() if name in NUMBERS or name in SWITCHES}


def same_effect(one: Recipe, two: Recipe, name: str) -> bool:
    """Whether two recipes do the same to a setting: asked in the same words, or alike on every base, drive and window
    tried.

    The bases are all round values and their neighbours over the setting's range; the window is one of three.
    """
    mine, yours = laws_by_setting(one).get(name, ()), laws_by_setting(two).get(name, ())
    if mine == yours:
        return True
    chance = random.Random(1)
    for drive in ("direct", "remote"):
        for low in (195, 210, 230):
            facts: Facts = {DRIVE: Fact(drive, Place()), WINDOW: Fact((Fraction(low), Fraction(low + 10)), Place())}
            for value in _probes(name):
                entries = {
                    "outer_wall.speed": _entry("outer_wall.speed", Fraction(chance.randint(20, 90))),
                    name: _entry(name, value),
                }
                base = Profile(entries, {}, {})
                results = [
                    apply_recipes(base, [_only(recipe, name)], facts, {}, VOCABULARY).derived.values(name)
                    for recipe in (one, two)
                ]
                if results[0] != results[1]:
                    return False
    return True


def _only(recipe: Recipe, name: str) -> Recipe:
    return recipe._replace(
        rules=tuple(rule._replace(settings=(name,)) for rule in recipe.rules if name in rule.settings)
    )


def _probes(name: str) -> list[Value]:
    if name in SWITCHES:
        return [True, False]
    known = NUMBERS[name]
    low, high, step = Fraction(known.low), Fraction(known.high), Fraction(known.round)
    middle = [step * count for count in range(int(low / step), int(high / step) + 2)]
    return [
        value for at in middle for value in (at, at + Fraction(known.step)) if low <= value <= high * Fraction(5, 4)
    ]


def recipe_of(name: str, rules: tuple[Rule, ...]) -> Recipe:
    """The recipe that rules make, for trying it out."""
    return Recipe(name=name, version="1.0.0", title="", rules=rules, inputs={})
