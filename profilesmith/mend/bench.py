"""What may be moved: the settings that have a key, with their values, and how far recipes and machine let each go.

The recipes themselves say how far: they are applied with one more rule that aims at the end of the setting's range, and
where the aim comes to rest is the end of the room. So bounds, products that are held, and what a text can hold all
count.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from fractions import Fraction

from profilesmith.facts.facts import Facts
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.mend.changes import Room
from profilesmith.mend.troubles import Knowledge, TroubleCause
from profilesmith.profile.profile import Profile
from profilesmith.recipe.apply_recipes import apply_recipes
from profilesmith.recipe.operations import BY_NAME
from profilesmith.recipe.recipe import Action, Fixed, Recipe, Rule
from profilesmith.recipe.resolve import Resolver
from profilesmith.vocabulary.setting import Value, Vocabulary

AIM = next(operation.name for operation in BY_NAME.values() if operation.is_aim)


class Bench(NamedTuple):
    """values: as they stand. steps: the size of a step; ends: the lowest and highest that may be reached; most: steps
    from the beginning.

    set_to: switches and choices that may be set. A setting that only goes along has values and ends, and no steps."""

    values: Mapping[str, Value]
    steps: Mapping[str, Fraction]
    ends: Mapping[str, tuple[Fraction, Fraction]]
    most: Mapping[str, int]
    set_to: frozenset[str] = frozenset()

    def moved(self, setting: str, began: Value) -> float:
        """How many steps a setting stands from where it began; 0 for one that only goes along with another."""
        value = self.values[setting]
        if setting not in self.steps and setting not in self.set_to:
            return 0.0
        if not isinstance(value, Fraction) or not isinstance(began, Fraction):
            return float(value != began)
        return float((value - began) / self.steps[setting])

    def room(self, began: Mapping[str, Value]) -> Room:
        """How far each setting may be moved from where it began, in steps."""
        rooms = {}
        for setting in (name for name in self.ends if name in self.steps or name in self.set_to):
            low, high = self.ends[setting]
            origin = began.get(setting, self.values[setting])
            if isinstance(origin, Fraction):
                step, most = self.steps[setting], self.most[setting]
                rooms[setting] = (
                    max(float((low - origin) / step), -float(most)),
                    min(float((high - origin) / step), float(most)),
                )
            elif self.values[setting] == origin:
                rooms[setting] = (0.0, 1.0)
        return rooms

    def value_at(self, setting: str, began: Value, steps: float, to: Value | None) -> Value:
        """The value so many steps from where it began."""
        if not isinstance(began, Fraction):
            return to if steps and to is not None else began
        low, high = self.ends[setting]
        return min(max(began + Fraction(steps).limit_denominator(1000) * self.steps[setting], low), high)


def bench_of(
    known: Knowledge,
    profile: Profile,
    base: Profile,
    recipes: Sequence[Recipe],
    facts: Facts,
    answers: Facts,
    vocabulary: Vocabulary,
    wanted: Collection[str],
) -> Bench:
    """profile: as it stands now; base: what the recipes are applied to. wanted: the settings that are asked after."""
    every = [cause for trouble in known.troubles.values() for cause in trouble.causes]
    causes = [cause for cause in every if cause.setting in wanted]
    steps, most = step_sizes(causes)
    asked = dict.fromkeys(name for cause in causes for name in (cause.setting, *cause.along))
    names = [name for name in asked if _one_value(profile, name)]
    numbers = [name for name in names if vocabulary.settings[name].is_number]
    values = {name: profile.entries[name].values[0] for name in names}
    lows, highs = (
        _reached(
            {name: end(vocabulary, name, side) for name in numbers},
            profile,
            base,
            recipes,
            facts,
            answers,
            vocabulary,
        )
        for side in (0, 1)
    )
    ends = {
        name: (lows[name], highs[name])
        for name in names
        if name in lows and name in highs and lows[name] <= highs[name]
    }
    switches = frozenset(name for name in names if name not in numbers)
    ends |= {name: (Fraction(0), Fraction(1)) for name in switches}
    return Bench(values, steps, ends, most, switches)


def step_sizes(causes: Iterable[TroubleCause]) -> tuple[dict[str, Fraction], dict[str, int]]:
    """For each setting the size of a step (of its first cause), and the most steps from where it began."""
    steps: dict[str, Fraction] = {}
    most: dict[str, int] = {}
    for cause in causes:
        if cause.direction:
            step = steps.setdefault(cause.setting, cause.step)
            most[cause.setting] = max(most.get(cause.setting, 0), int(cause.most / step))
    return steps, most


def _one_value(profile: Profile, name: str) -> bool:
    """Whether a setting has a key, and one value for all tools."""
    entry = profile.entries.get(name)
    return entry is not None and bool(entry.values) and len(set(entry.values)) == 1


def end(vocabulary: Vocabulary, name: str, side: int) -> Value:
    """The lowest or highest plausible value."""
    setting = vocabulary.settings[name]
    limit = setting.high if side else setting.low
    assert limit is not None
    return limit


def _reached(
    wanted: Mapping[str, Value],
    profile: Profile,
    base: Profile,
    recipes: Sequence[Recipe],
    facts: Facts,
    answers: Facts,
    vocabulary: Vocabulary,
) -> dict[str, Fraction]:
    """Where an aim at each value comes to rest: each setting by itself, from its base, among the others as they
    stand.
    """
    ends = {}
    for name, value in wanted.items():
        if name not in base.entries:
            continue
        rules = [recipe._replace(rules=_on(recipe, name)) for recipe in recipes]
        around = base._replace(entries={**profile.entries, name: base.entries[name]})
        ledger = apply_recipes(around, [*rules, aims({name: value}, vocabulary)], facts, answers, vocabulary)
        entry = ledger.derived.entries.get(name)
        if not ledger.problems and entry is not None and isinstance(entry.values[0], Fraction):
            ends[name] = entry.values[0]
    return ends


def _on(recipe: Recipe, name: str) -> tuple[Rule, ...]:
    """A recipe's rules on one setting."""
    rules = [rule._replace(settings=(name,)) for rule in recipe.rules if name in rule.settings]
    return tuple(rules)


def aims(values: Mapping[str, Value], vocabulary: Vocabulary) -> Recipe:
    """A recipe that aims at values, and nothing else."""

    rules = tuple(
        Rule(number, (name,), (name,), (Action(AIM, (Fixed(vocabulary.settings[name].written(value)),)),))
        for number, (name, value) in enumerate(values.items(), 1)
    )
    return Recipe("probe", "1.0.0", "", rules, {})


def cannot_be(known: Knowledge, facts: Facts, profile: Profile, vocabulary: Vocabulary) -> frozenset[tuple[str, int]]:
    """The causes whose conditions on facts are not met, as (trouble, place among its causes)."""
    resolver = Resolver(Recipe("", "", "", (), {}), {}, facts, profile, vocabulary)
    return frozenset(
        (trouble.name, rank)
        for trouble in known.troubles.values()
        for rank, cause in enumerate(trouble.causes)
        if cause.when and resolver.condition(cause.when) is False
    )
