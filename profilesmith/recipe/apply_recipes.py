"""Recipes over a profile: every rule meets every setting that it names, and the ledger says what happened.

Comes in: a base profile, recipes in their order, facts, answers. Goes out: a Ledger. Knows nothing of texts; what
a text can hold is known from the grids of the profile's entries.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from operator import itemgetter

from profilesmith.facts.facts import Facts
from profilesmith.foundation.problem import CONFLICT, Problem
from profilesmith.ledger import Answer, Ledger, RecipeUse, Row
from profilesmith.profile.profile import Entry, Profile
from profilesmith.recipe.constants import Constants
from profilesmith.recipe.outcomes import OutcomeKey, Outcomes, PlainValues
from profilesmith.recipe.recipe import Recipe
from profilesmith.recipe.resolve import Resolver, settle_inputs
from profilesmith.recipe.rule_on_setting import RuleOnSetting
from profilesmith.recipe.setting_work import SettingWork, WorkedOut
from profilesmith.recipe.tool import no_such_tool, other_bore, with_bore
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

    outcomes: those of other profiles with these very recipes, facts and answers; of one profile alone none are kept.
    """
    ways, asked = outcomes or Outcomes(), with_bore(base, facts)
    inputs = [settle_inputs(recipe, answers, asked) for recipe in recipes]
    uses = tuple(_use(recipe, settled) for recipe, settled in zip(recipes, inputs, strict=True))
    order, circle = ways.order(base, recipes)
    if circle:
        return Ledger(base=base, derived=base, rows=(), recipes=uses, problems=(_circle(circle),), facts=facts)
    constants = ways.constants(base, facts)
    rulings = _rulings(recipes, inputs, asked, base, vocabulary, constants)
    derived, worked = _worked_out(order, base, rulings, constants, vocabulary, outcomes)
    ranks = {name: rank for rank, name in enumerate(vocabulary.settings)}
    problems = [*other_bore(base, facts, recipes), *no_such_tool(base, facts)]
    rows: list[tuple[tuple[int, int, int], Row]] = []
    for setting, outcome in worked.items():
        problems += outcome.problems
        rows += [((*place, ranks[setting]), row) for place, row in outcome.rows]
    return Ledger(base=base, derived=derived, rows=_ordered(rows), recipes=uses, problems=tuple(problems), facts=facts)


def _worked_out(
    order: Sequence[str],
    base: Profile,
    rulings: Mapping[str, list[RuleOnSetting]],
    constants: Constants,
    vocabulary: Vocabulary,
    outcomes: Outcomes | None,
) -> tuple[Profile, dict[str, WorkedOut]]:
    """The derived profile, and what became of each setting that a rule or another setting can move."""
    entries = dict(base.entries)
    derived = base._replace(entries=entries)
    keys = {name: key for key in base.one_keys for name in key.settings}
    worked: dict[str, WorkedOut] = {}
    before, after = PlainValues(base.entries), PlainValues(entries)

    def work(setting: str) -> SettingWork:
        return SettingWork(vocabulary.settings[setting], base, derived, rulings.get(setting, []), constants)

    for name in (name for name in order if name in vocabulary.settings):
        if name in worked or (name not in rulings and _alone(entries.get(name))):
            continue
        if name in keys:  # too few to be worth remembering, and to be loaded at every start
            from profilesmith.recipe.shared_key import shared_key

            now: Mapping[str, WorkedOut] = shared_key(keys[name], base, work)
        elif outcomes is None:
            now = {name: work(name).run()}
        else:
            seen = outcomes.seen(name, rulings.get(name, []), base, before, after)
            now = {name: _remembered(name, work, base, seen, outcomes)}
        for setting, outcome in now.items():
            if outcome.entry is not None:
                entries[setting] = outcome.entry
                after.pop(setting, None)
        worked |= now
    return derived, worked


def _ordered(rows: list[tuple[tuple[int, int, int], Row]]) -> tuple[Row, ...]:
    return tuple(row for _, row in sorted(rows, key=itemgetter(0)))


def _circle(settings: Sequence[str]) -> Problem:
    message = f"These settings depend on one another in a circle: {' -> '.join(settings)}."
    hint = "Leave out one of the rules that refer to another setting."
    return Problem("circle", message, hint=hint, severity=CONFLICT)


def _remembered(
    name: str, work: Callable[[str], SettingWork], base: Profile, seen: OutcomeKey, outcomes: Outcomes
) -> WorkedOut:
    """What becomes of one setting, worked out or remembered. seen: what it follows from."""
    known = outcomes.get(seen, base.entries.get(name))
    if known is None:
        known = work(name).run()
        outcomes.keep(seen, known)
    return known


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
    constants: Constants,
) -> dict[str, list[RuleOnSetting]]:
    """For each setting the rules that speak of it, in the order of recipes and rules."""
    rulings: dict[str, list[RuleOnSetting]] = {}
    for index, (recipe, settled) in enumerate(zip(recipes, inputs, strict=True)):
        resolver = Resolver(recipe, settled, facts, base, vocabulary)
        for rule in recipe.rules:
            ruling = RuleOnSetting((index, rule.number), rule, resolver, constants)
            for setting in rule.settings:
                rulings.setdefault(setting, []).append(ruling)
    return rulings
