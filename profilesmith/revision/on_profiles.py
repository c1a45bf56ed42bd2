"""What a new version of a recipe does to profiles that the old one was used on: derived values before and after."""

from profilesmith.facts.facts import Facts
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.problem import Problem
from profilesmith.ledger.ledger import Ledger
from profilesmith.profile.profile import Profile
from profilesmith.recipe.apply_recipes import apply_recipes
from profilesmith.recipe.recipe import Recipe
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
