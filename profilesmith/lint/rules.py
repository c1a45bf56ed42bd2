"""All rules in literal tuples, one for each kind of file. To add one: a function, an entry in its family, two
fixtures.
"""

from profilesmith.lint import (
    bounds,
    coupon_files,
    evidence_files,
    examples,
    facts_files,
    heads,
    heat,
    history,
    inputs,
    key_maps,
    libraries,
    look_alikes,
    machine_limits,
    reading,
    reasons,
    shadowed,
    trouble_files,
    words,
)
from profilesmith.lint.rule import LintRule, RuleText

RECIPE: tuple[LintRule, ...] = (
    *reading.RECIPE_RULES,
    *heads.RULES,
    *look_alikes.RECIPES,
    *reasons.RULES,
    *words.RULES,
    *bounds.RULES,
    *shadowed.RULES,
    *heat.RULES,
    *examples.RULES,
    *inputs.RULES,
    *history.RULES,
)
KEY_MAP: tuple[LintRule, ...] = (*reading.KEY_MAP_RULES, *key_maps.RULES, *look_alikes.KEY_MAPS)
FACTS: tuple[LintRule, ...] = (*reading.FACTS_RULES, *facts_files.RULES, *look_alikes.FACTS, *machine_limits.RULES)
EVIDENCE: tuple[LintRule, ...] = (*reading.EVIDENCE_RULES, *evidence_files.RULES)
COUPON: tuple[LintRule, ...] = (*reading.COUPON_RULES, *coupon_files.PLAN_RULES)
COUPON_LOG: tuple[LintRule, ...] = (*reading.COUPON_LOG_RULES, *coupon_files.LOG_RULES)
TROUBLES: tuple[LintRule, ...] = (*reading.TROUBLES_RULES, *trouble_files.RULES)
LIBRARY: tuple[LintRule, ...] = (*reading.LIBRARY_RULES, *libraries.RULES)

RULES: tuple[LintRule, ...] = (*RECIPE, *KEY_MAP, *FACTS, *EVIDENCE, *COUPON, *COUPON_LOG, *TROUBLES, *LIBRARY)


def rule_texts() -> list[RuleText]:
    """Every rule as documentation shows it, by number within its kind of file."""
    return [RuleText(rule.number, rule.severity, rule.title, rule.why, rule.fix) for rule in RULES]
