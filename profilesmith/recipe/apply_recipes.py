"""Recipes over a profile: every rule meets every setting that it names, and the ledger says what happened.

Comes in: a base profile, recipes in their order, facts, answers. Goes out: a Ledger. Knows nothing of texts; what
a text can hold is known from the grids of the profile's entries.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from profilesmith.facts.facts import Facts
from profilesmith.foundation.problem import CONFLICT, Problem
from profilesmith.ledger import Answer, Ledger, RecipeUse, Row
from profilesmith.profile.profile import Entry, Profile
from profilesmith.recipe.bore import other_bore, with_bore
from profilesmith.recipe.chosen_tool import no_such_tool
from profilesmith.recipe.order import working_order
from profilesmith.recipe.outcomes import Outcomes
from profilesmith.recipe.recipe import Recipe
from profilesmith.recipe.resolve import Resolver, settle_inputs
from profilesmith.recipe.rule_on_setting import RuleOnSetting
from profilesmith.recipe.setting_work import SettingWork, WorkedOut
from profilesmith.recipe.shared_key import shared_key
from profilesmith.vocabulary.setting import Vocabulary


def apply_recipes(
    base: Profile,
    recipes: Sequence[Recipe],
    facts: Facts,
    answers: Facts,
    vocabulary: Vocabulary,
    outcomes: Outcomes | None = None,
) -> Ledger:
    """Derive. ``ledger.problems`` holds conflicts and refusals; with any of them nothing may be written.

    outcomes: those of other profiles with these very recipes, facts and answers.
    """
    asked = with_bore(base, facts)
    inputs = [settle_inputs(recipe, answers, asked) for recipe in recipes]
    entries = dict(base.entries)
    derived = base._replace(entries=entries)
    uses = tuple(_use(recipe, settled) for recipe, settled in zip(recipes, inputs, strict=True))
    order, circle = working_order(base, recipes)
    if circle:
        return Ledger(base=base, derived=derived, rows=(), recipes=uses, problems=(_circle(circle),), facts=facts)
    rulings = _rulings(recipes, inputs, asked, base, vocabulary)
    rows: list[tuple[tuple[int, int, int], Row]] = []
    problems = [*other_bore(base, facts, recipes), *no_such_tool(base, facts)]
    ranks = {name: rank for rank, name in enumerate(vocabulary.settings)}
    keys = {name: key for key in base.one_keys for name in key.settings}
    done: set[str] = set()
    for name in (name for name in order if name in vocabulary.settings):
        if name in done or (name not in rulings and _alone(entries.get(name))):
            continue
        if name in keys:  # too few to be worth remembering
            worked: Mapping[str, WorkedOut] = shared_key(keys[name], base, derived, rulings, facts, vocabulary)
        else:
            worked = {name: _outcome(name, base, derived, rulings.get(name, []), facts, vocabulary, outcomes)}
        for setting, outcome in worked.items():
            if outcome.entry is not None:
                entries[setting] = outcome.entry
            problems += outcome.problems
            rows += [((*place, ranks[setting]), row) for place, row in outcome.rows]
        done.update(worked)
    return Ledger(base=base, derived=derived, rows=_ordered(rows), recipes=uses, problems=tuple(problems), facts=facts)


def _ordered(rows: list[tuple[tuple[int, int, int], Row]]) -> tuple[Row, ...]:
    return tuple(row for _, row in sorted(rows, key=lambda item: item[0]))


def _circle(settings: Sequence[str]) -> Problem:
    message = f"These settings depend on one another in a circle: {' -> '.join(settings)}."
    hint = "Leave out one of the rules that refer to another setting."
    return Problem("circle", message, hint=hint, severity=CONFLICT)


def _outcome(
    name: str,
    base: Profile,
    derived: Profile,
    rulings: list[RuleOnSetting],
    facts: Facts,
    vocabulary: Vocabulary,
    outcomes: Outcomes | None,
) -> WorkedOut:
    """What becomes of one setting, worked out or remembered."""
    seen = None if outcomes is None else outcomes.seen(name, rulings, base, derived)
    known = None if outcomes is None or seen is None else outcomes.get(seen, base.entries.get(name))
    if known is not None:
        return known
    outcome = SettingWork(vocabulary.settings[name], base, derived, rulings, facts).run()
    if outcomes is not None and seen is not None:
        outcomes.keep(seen, outcome)
    return outcome


def _alone(entry: Entry | None) -> bool:
    """Whether nothing that happens to other settings can move this one."""
    return entry is None or not (entry.relative_to or entry.coupling)


def _use(recipe: Recipe, settled: Mapping[str, Answer]) -> RecipeUse:
    return RecipeUse(
        name=recipe.name,
        version=recipe.version,
        title=recipe.title,
        cautions=recipe.cautions,
        once=recipe.once,
        answers=dict(settled),
    )


def _rulings(
    recipes: Sequence[Recipe],
    inputs: Sequence[Mapping[str, Answer]],
    facts: Facts,
    base: Profile,
    vocabulary: Vocabulary,
) -> dict[str, list[RuleOnSetting]]:
    """For each setting the rules that speak of it, in the order of recipes and rules."""
    rulings: dict[str, list[RuleOnSetting]] = {}
    for index, (recipe, settled) in enumerate(zip(recipes, inputs, strict=True)):
        resolver = Resolver(recipe, settled, facts, base, vocabulary)
        for rule in recipe.rules:
            for setting in rule.settings:
                rulings.setdefault(setting, []).append(RuleOnSetting(index, rule, resolver))
    return rulings
