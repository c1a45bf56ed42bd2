"""What a new version of a recipe does to profiles that the old one was used on: derived values before and after."""

from collections.abc import Sequence

from profilesmith.facts.facts import Facts
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.problem import Problem
from profilesmith.foundation.words import plural
from profilesmith.ledger.ledger import Ledger
from profilesmith.profile.profile import Profile
from profilesmith.recipe.apply_recipes import apply_recipes
from profilesmith.recipe.recipe import Recipe
from profilesmith.review.wording import show_values
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Value

Values = tuple[Value, ...]


class TrialProfile(NamedTuple):
    """A profile to try both versions on. answers: to questions, by their names; one that a version does not ask is left
    out.
    """

    name: str
    profile: Profile
    facts: Facts
    answers: Facts = {}  # noqa: RUF012


class Moved(NamedTuple):
    """A setting that comes out otherwise. base: as the profile has it, () where it has no key."""

    setting: str
    base: Values
    old: Values
    new: Values


class ProfileEffect(NamedTuple):
    """On one profile. same: how many settings come out alike. old_stops, new_stops: why a version derives nothing."""

    name: str
    moved: tuple[Moved, ...]
    same: int
    old_stops: tuple[Problem, ...] = ()
    new_stops: tuple[Problem, ...] = ()


def effect_on(sample: TrialProfile, old: Recipe, new: Recipe) -> ProfileEffect:
    """Both versions on a profile. With a conflict on either side no values are compared."""
    before, after = _derived(sample, old), _derived(sample, new)
    if before.problems or after.problems:
        return ProfileEffect(sample.name, (), 0, before.problems, after.problems)
    names = [name for name in load_vocabulary().settings if before.derived.values(name) or after.derived.values(name)]
    moved = [
        Moved(name, sample.profile.values(name), before.derived.values(name), after.derived.values(name))
        for name in names
        if before.derived.values(name) != after.derived.values(name)
    ]
    return ProfileEffect(sample.name, tuple(moved), len(names) - len(moved))


def _derived(sample: TrialProfile, recipe: Recipe) -> Ledger:
    answers = {name: value for name, value in sample.answers.items() if name in recipe.inputs}
    return apply_recipes(sample.profile, [recipe], sample.facts, answers, load_vocabulary())


def effect_in_words(sample: TrialProfile, old: Recipe, new: Recipe) -> tuple[str, tuple[str, ...]]:
    """What a new version does to a profile in words: how it goes there, and each value that comes out otherwise."""
    effect = effect_on(sample, old, new)
    if effect.old_stops or effect.new_stops or not effect.moved:
        return effect_lines(effect)[0], ()
    count, verb = plural(len(effect.moved), "value"), "comes" if len(effect.moved) == 1 else "come"
    return f"On {effect.name}: {count} {verb} out otherwise", tuple(map(_line, effect.moved))


def effect_lines(effect: ProfileEffect) -> list[str]:
    """An effect in words."""
    head = f"On {effect.name}"
    if effect.old_stops and effect.new_stops:
        return [f"{head}: neither version can be derived: {effect.new_stops[0].message}"]
    if effect.new_stops:
        return [f"{head}: the new version stops, the old one did not: {problem}" for problem in _told(effect.new_stops)]
    if effect.old_stops:
        return [
            f"{head}: the old version stopped, the new one does not: {problem}" for problem in _told(effect.old_stops)
        ]
    if not effect.moved:
        return [f"{head}: {plural(effect.same, 'setting')}, all as before."]
    return [head, *(f"- {_line(moved)}" for moved in effect.moved), f"- {plural(effect.same, 'setting')} as before"]


def _told(problems: Sequence[Problem]) -> list[str]:
    return [problem.message for problem in problems]


def _line(moved: Moved) -> str:
    setting = load_vocabulary().settings[moved.setting]
    base, old, new = (show_values(setting, values) if values else "no key" for values in moved[1:])
    return f"{moved.setting}: {new}; was {old} (the profile itself has {base})"
