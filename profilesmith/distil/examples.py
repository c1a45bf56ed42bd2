"""The pairs as a recipe's own examples: only the settings that its rules touch, in plain texts."""

from collections.abc import Mapping, Sequence
from fractions import Fraction

from profilesmith.distil.law import text_of
from profilesmith.distil.sample import Sample, Seen
from profilesmith.facts.facts import Facts, Hardness, fact_kinds
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.number import decimal_text
from profilesmith.foundation.quantity import CANONICAL
from profilesmith.profile.profile import Entry, Grid, Origin, Profile
from profilesmith.recipe.apply_recipes import apply_recipes
from profilesmith.recipe.operations import SET
from profilesmith.recipe.order import needs
from profilesmith.recipe.recipe import FactRef, Recipe, parts
from profilesmith.vocabulary.setting import Unreadable, Value, Vocabulary, read_value

COARSE = Fraction(1, 1000)
"""Texts of examples have a few decimals; a tuned value that differs by no more than this share is the same."""


class PairExample(NamedTuple):
    """given, facts, expect: texts as they stand in the recipe. left_out: settings that the recipe does not give."""

    pair: int
    given: Mapping[str, str]
    facts: Mapping[str, str | list[str]]
    expect: Mapping[str, str]
    left_out: tuple[str, ...]


def example_of(
    number: int, sample: Sample, recipe: Recipe, seen: Sequence[Seen], vocabulary: Vocabulary
) -> PairExample | None:
    """A pair, the sample of that number, as an example of a recipe, or None when it has nothing to expect."""
    mine = {item.setting: item for item in reversed(seen) if item.pair == number and item.before is not None}
    spoken = [name for rule in recipe.rules for name in rule.settings]
    needed = {
        name
        for rule in recipe.rules
        for action in rule.actions
        for setting in rule.settings
        for name in needs(action, setting)
    }
    given = {
        name: text
        for name in vocabulary.settings
        if name in {*spoken, *needed} and name in mine and (text := _text(name, mine[name].before, vocabulary))
    }
    facts = _facts(recipe, sample.facts)
    derived = _derived(given, sample.facts, recipe, vocabulary)
    expect, left_out = {}, []
    for name in given:
        value = derived.values(name)[0]
        if _same(value, mine[name]):
            expect[name] = _text(name, value, vocabulary)
        else:
            left_out.append(name)
    kept = {name: text for name, text in given.items() if name not in left_out or name in needed}
    if any(name in needed for name in left_out) or not expect:
        return None  # what others depend on came out otherwise: no fair example of this recipe
    return PairExample(
        number, kept, facts, {name: text for name, text in expect.items() if name in spoken}, tuple(left_out)
    )


def _same(value: Value, seen: Seen) -> bool:
    if value == seen.after:
        return True
    if not isinstance(value, Fraction) or not isinstance(seen.after, Fraction):
        return False
    return abs(value - seen.after) <= max(seen.slack, abs(seen.after) * COARSE)


def _text(name: str, value: Value | None, vocabulary: Vocabulary) -> str:
    return "" if value is None else text_of(SET, value, vocabulary.settings[name])


def _derived(given: Mapping[str, str], facts: Facts, recipe: Recipe, vocabulary: Vocabulary) -> Profile:
    """What the recipe makes of the texts, as ``recipe check`` works it out."""
    entries = {}
    for name, text in given.items():
        value = read_value(vocabulary.settings[name], text)
        if not isinstance(value, Unreadable):
            grid = Grid(vocabulary.settings[name].step or Fraction(0))
            entries[name] = Entry(setting=name, values=(value,), origin=Origin("", 0, "", ""), grids=(grid,))
    wanted = {name: facts[name] for name in _facts(recipe, facts)}
    return apply_recipes(Profile(entries, {}, {}), [recipe], wanted, {}, vocabulary).derived


def _facts(recipe: Recipe, facts: Facts) -> dict[str, str | list[str]]:
    """The facts that the recipe's rules ask for, as texts."""
    names: dict[str, None] = {}
    for rule in recipe.rules:
        names.update((clause.subject, None) for clause in rule.when)
        for action in rule.actions:
            inner = (part for operand in action.operands for part in parts(operand))
            names.update((part.name, None) for part in inner if isinstance(part, FactRef))
    return {name: _fact_text(name, facts) for name in names if name in facts}


def _fact_text(name: str, facts: Facts) -> str | list[str]:
    value, kind = facts[name].value, fact_kinds()[name]
    unit = CANONICAL.get(kind.unit_kind, "")
    if isinstance(value, Hardness):
        return kind.show(value)
    if isinstance(value, tuple):
        return [f"{decimal_text(end, 6)} {unit}".strip() for end in value]
    return f"{decimal_text(value, 6)} {unit}".strip() if isinstance(value, Fraction) else value
