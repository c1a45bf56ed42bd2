"""The proof: a recipe laid over each base by the real engine, and held against the tuned version."""

from collections.abc import Mapping, Sequence
from fractions import Fraction

from profilesmith.distil.finding import DistilledRule
from profilesmith.distil.law import Law
from profilesmith.distil.sample import Sample, Seen
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.problem import Problem
from profilesmith.foundation.quantity import read_quantity
from profilesmith.profile.profile import Profile
from profilesmith.recipe.apply_recipes import apply_recipes
from profilesmith.recipe.recipe import Recipe, SettingRef
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

    inside: how many lie elsewhere in a window of values near one another than where its rule puts them.
    problems: with their pairs, where the recipe cannot be applied to a base at all.
    """

    exact: int
    rounded: int
    misses: tuple[Miss, ...]
    problems: tuple[tuple[int, Problem], ...] = ()
    inside: int = 0

    @property
    def passed(self) -> bool:
        return not self.misses and not self.problems


def windows_of(findings: Sequence[DistilledRule]) -> dict[str, Law]:
    """The windows of values near one another, by setting; and those of temperatures that are told relative to one."""
    windows = {name: item.law for item in findings if item.law.spread for name in item.settings}
    for item in findings:
        aim = item.law.aim
        window = windows.get(aim.setting) if isinstance(aim, SettingRef) else None
        step = read_quantity(aim.plus, "temperature", difference=True) if isinstance(aim, SettingRef) else None
        if window is not None and isinstance(step, Fraction):
            ends = tuple(end + step for end in window.values if isinstance(end, Fraction))
            windows |= dict.fromkeys(item.settings, window._replace(values=ends))
    return windows


def replay(
    samples: Sequence[Sample],
    recipes: Sequence[Sequence[Recipe]],
    seen: Sequence[Seen],
    vocabulary: Vocabulary,
    windows: Mapping[str, Law] | None = None,
) -> Replay:
    """Derive every base anew. recipes: those of each sample. seen: all values that the pairs show, for their
    rounding. windows: laws of values near one another, by setting.
    """
    slack = {(item.pair, item.setting, item.tool): item.slack for item in seen}
    counts, misses, problems, inside = [0, 0], [], [], 0
    for number, sample in enumerate(samples):
        ledger = apply_recipes(sample.base, list(recipes[number]), sample.facts, {}, vocabulary)
        problems += [(number, problem) for problem in ledger.problems]
        for name, entry in sample.tuned.entries.items():
            for tool, value in enumerate(entry.values):
                got = _at(ledger.derived, name, tool)
                room = slack.get((number, name, tool), Fraction(0))
                window = (windows or {}).get(name)
                if got == value or _near(got, value, room):
                    counts[got != value] += 1
                elif window is not None and got is not None and window.holds(value, room) and window.holds(got, room):
                    inside += 1
                else:
                    misses.append(Miss(number, name, tool, _at(sample.base, name, tool), got, value))
    return Replay(counts[0], counts[1], tuple(misses), tuple(problems), inside)


def _at(profile: Profile, name: str, tool: int) -> Value | None:
    values = profile.values(name)
    return None if not values else values[tool] if tool < len(values) else values[0]


def _near(got: Value | None, wanted: Value, slack: Fraction) -> bool:
    return isinstance(got, Fraction) and isinstance(wanted, Fraction) and abs(got - wanted) <= slack
