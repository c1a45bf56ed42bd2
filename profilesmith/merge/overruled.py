"""Which rule a kept hand edit overrules: the recipes are asked once more, with the edit as their base.

A value inside all bounds stays as it is (deriving twice changes nothing), so whatever moves it is overruled.
"""

from collections.abc import Iterable, Mapping, Sequence

from profilesmith.facts.facts import Facts, FactValue
from profilesmith.merge.decision import AGREED, DERIVED, LEFT_OUT, Decision
from profilesmith.profile.profile import Profile
from profilesmith.recipe.apply_recipes import apply_recipes
from profilesmith.recipe.recipe import Recipe
from profilesmith.vocabulary.setting import Vocabulary

ONCE = ("scale", "shift")  # do their work again on every value: no bound


def with_overruled(
    decisions: Iterable[Decision], profile: Profile, recipes: Sequence[Recipe], facts: Facts,
    answers: Mapping[str, FactValue], vocabulary: Vocabulary,
) -> list[Decision]:  # fmt: skip
    """The decisions with the rules that kept edits overrule. profile: the result, hand edits in it."""
    again = apply_recipes(profile, recipes, facts, answers, vocabulary)
    rules = {(recipe.name, rule.number): rule for recipe in recipes for rule in recipe.rules}
    told: dict[str, str] = {}
    for row in again.rows:
        rule = rules.get((row.cause.recipe, row.cause.rule))
        once = rule is not None and all(action.operation in ONCE for action in rule.actions)
        moved = row.status == "refused" or (row.status == "changed" and row.base != row.derived)
        if moved and not once:
            told.setdefault(row.setting, f"{row.cause}: {row.cause.demand}" if row.cause.demand else str(row.cause))
    return [
        decision._replace(overrules=told[decision.what])
        if decision.kind == "setting" and decision.what in told and decision.chosen == DERIVED and decision.outcome not in (AGREED, LEFT_OUT)
        else decision
        for decision in decisions
    ]
