"""Which rules a hand edit breaks: the recipes are asked once more, with the edit as their base.

A value that meets a rule stays as it is (deriving twice changes nothing), so a rule that would move it is broken.
"""

from collections.abc import Iterable, Sequence
from fractions import Fraction

from profilesmith.facts.facts import Facts
from profilesmith.ledger import BrokenRules, Decision, Ledger, Row
from profilesmith.merge.decision import AGREED, DERIVED, LEFT_OUT
from profilesmith.profile.profile import Profile
from profilesmith.recipe.apply_recipes import apply_recipes
from profilesmith.recipe.cause_words import cause_name, demand_words
from profilesmith.recipe.recipe import Recipe
from profilesmith.vocabulary.setting import Vocabulary


def broken_rules(
    names: Iterable[str],
    ledger: Ledger,
    profile: Profile,
    recipes: Sequence[Recipe],
    facts: Facts,
    answers: Facts,
    vocabulary: Vocabulary,
) -> BrokenRules:
    """The rules on some settings that a profile breaks. ledger: of the recipes alone; profile: hand edits in it."""
    broken: set[tuple[str, str, int]] = set()
    for name in names:
        again = apply_recipes(
            _by_itself(profile, name), [_only(recipe, name) for recipe in recipes], facts, answers, vocabulary
        )
        broken |= {
            _pair(row)
            for row in again.rows
            if row.setting == name
            and (
                row.status in ("changed", "added", "refused") or (row.status == "overruled" and row.base != row.derived)
            )
        }
    holding = {
        (recipe.name, rule.number)
        for recipe in recipes
        for rule in recipe.rules
        if any(action.does.products for action in rule.actions)
    }
    # A product that is held is held against the base: the edit itself cannot tell what it was.
    held = [row for row in ledger.rows if (row.cause.recipe, row.cause.rule) in holding]
    return frozenset(broken | {_pair(row) for row in held if _below(row, profile)})


def _rule(row: Row, vocabulary: Vocabulary) -> str:
    """The rule and what it asks, in words."""
    asked = demand_words(row.cause, vocabulary.settings[row.setting])
    return f"{cause_name(row.cause)}: {asked}" if asked else cause_name(row.cause)


def _by_itself(profile: Profile, name: str) -> Profile:
    """The profile with one setting written in full: what it is a share of cannot bring it back inside its bounds."""
    entry = profile.entries.get(name)
    if entry is None or not entry.relative_to:
        return profile
    return profile._replace(entries={**profile.entries, name: profile.in_full(name)})


def _only(recipe: Recipe, name: str) -> Recipe:
    return recipe._replace(
        rules=tuple(rule._replace(settings=(name,)) for rule in recipe.rules if name in rule.settings)
    )


def _pair(row: Row) -> tuple[str, str, int]:
    return row.setting, row.cause.recipe, row.cause.rule


def _below(row: Row, profile: Profile) -> bool:
    entry = profile.entries.get(row.setting)
    values = entry.values if entry else ()
    return any(
        isinstance(now, Fraction) and isinstance(then, Fraction) and now < then
        for now, then in zip(values, row.derived, strict=False)
    )


def with_overruled(
    decisions: Iterable[Decision],
    profile: Profile,
    recipes: Sequence[Recipe],
    facts: Facts,
    answers: Facts,
    vocabulary: Vocabulary,
) -> list[Decision]:
    """The decisions with the rules that kept edits overrule. profile: the result, hand edits in it."""
    again = apply_recipes(profile, recipes, facts, answers, vocabulary)
    rules = {(recipe.name, rule.number): rule for recipe in recipes for rule in recipe.rules}
    by_setting: dict[str, str] = {}
    for row in again.rows:
        rule = rules.get((row.cause.recipe, row.cause.rule))
        once = rule is not None and all(action.does.once for action in rule.actions)
        moved = row.status == "refused" or (row.status == "changed" and row.base != row.derived)
        if moved and not once:
            by_setting.setdefault(row.setting, _rule(row, vocabulary))
    return [
        decision._replace(overrules=by_setting[decision.what])
        if decision.kind == "setting"
        and decision.what in by_setting
        and decision.chosen == DERIVED
        and decision.outcome not in (AGREED, LEFT_OUT)
        else decision
        for decision in decisions
    ]
