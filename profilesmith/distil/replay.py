"""The proof: a recipe laid over each base by the real engine, and held against the tuned version."""

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from profilesmith.distil.sample import Sample, Seen
from profilesmith.profile.profile import Profile
from profilesmith.recipe.apply_recipes import apply_recipes
from profilesmith.recipe.recipe import Recipe
from profilesmith.vocabulary.setting import Value, Vocabulary


class Miss(NamedTuple):
    """A value that the recipe does not give. derived: None where the setting is not there."""

    pair: int
    setting: str
    tool: int
    base: Value | None
    derived: Value | None
    tuned: Value


class Replay(NamedTuple):
    """exact, rounded: how many values came out as tuned, and how many within the text's rounding.

    problems: sentences, where the recipe cannot be applied to a base at all.
    """

    exact: int
    rounded: int
    misses: tuple[Miss, ...]
    problems: tuple[tuple[int, str], ...] = ()

    @property
    def passed(self) -> bool:
        return not self.misses and not self.problems


def replay(
    samples: Sequence[Sample], recipes: Sequence[Sequence[Recipe]], seen: Sequence[Seen], vocabulary: Vocabulary
) -> Replay:
    """Derive every base anew. recipes: those of each sample. seen: all values that the pairs show, for their
    rounding.
    """
    slack = {(item.pair, item.setting, item.tool): item.slack for item in seen}
    counts, misses, problems = [0, 0], [], []
    for pair, sample in enumerate(samples):
        ledger = apply_recipes(sample.base, list(recipes[pair]), sample.facts, {}, vocabulary)
        problems += [(pair, problem.message) for problem in ledger.problems]
        for name, entry in sample.tuned.entries.items():
            for tool, value in enumerate(entry.values):
                got = _at(ledger.derived, name, tool)
                near = _near(got, value, slack.get((pair, name, tool), Fraction(0)))
                if got == value or near:
                    counts[got != value] += 1
                else:
                    misses.append(Miss(pair, name, tool, _at(sample.base, name, tool), got, value))
    return Replay(counts[0], counts[1], tuple(misses), tuple(problems))


def _at(profile: Profile, name: str, tool: int) -> Value | None:
    values = profile.values(name)
    return None if not values else values[tool] if tool < len(values) else values[0]


def _near(got: Value | None, wanted: Value, slack: Fraction) -> bool:
    return isinstance(got, Fraction) and isinstance(wanted, Fraction) and abs(got - wanted) <= slack
