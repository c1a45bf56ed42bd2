"""Recipes over a base in which hand edits are fixed: what is written relative to them, or ruled by them, is judged
anew.

Without this a first layer of "40 %", an inner wall as a share of the outer one, or a rule ``{ of = ... }`` would be
carried past its bound by an edit elsewhere.
"""

from collections.abc import Collection, Sequence

from profilesmith.facts.facts import Facts
from profilesmith.ledger import Ledger, Row
from profilesmith.merge.overruled import broken_rules
from profilesmith.merge.replay import followed, pinned_entry, replay
from profilesmith.merge.settings import SettingMerge
from profilesmith.recipe.apply_recipes import apply_recipes
from profilesmith.recipe.recipe import Recipe
from profilesmith.vocabulary.setting import Vocabulary


def apply_around(
    pure: Ledger,
    merges: Sequence[SettingMerge],
    recipes: Sequence[Recipe],
    facts: Facts,
    answers: Facts,
    vocabulary: Vocabulary,
) -> Ledger:
    """The ledger with the hand edits in it. pure: of the recipes alone. Its problems are conflicts that the edits
    make.
    """
    fixed = {item.setting: item.holding for item in merges if item.holding and not item.by_text}
    if not fixed:
        return pure
    entries = dict(pure.base.entries)
    for name, holding in fixed.items():
        if name in entries:
            entries[name] = pinned_entry(entries[name], holding)
    base = pure.base._replace(entries=followed(entries, fixed))
    again = apply_recipes(base, [_without(recipe, fixed.keys()) for recipe in recipes], facts, answers, vocabulary)
    broken = broken_rules(fixed, pure, again.derived, recipes, facts, answers, vocabulary)
    rows = [row for row in pure.rows if row.setting in fixed]
    rows += [_from_base(row, pure) for row in again.rows if row.setting not in fixed]
    return replay(again._replace(base=pure.base, recipes=pure.recipes, rows=tuple(rows)), merges, broken)


def _without(recipe: Recipe, fixed: Collection[str]) -> Recipe:
    """The recipe with no say on the fixed settings."""
    rules = tuple(
        rule._replace(settings=tuple(name for name in rule.settings if name not in fixed)) for rule in recipe.rules
    )
    return recipe._replace(rules=rules)


def _from_base(row: Row, pure: Ledger) -> Row:
    """A row that starts from the base as it is in the text."""
    entry = pure.base.entries.get(row.setting)
    return row._replace(base=entry.values) if entry and row.base else row
