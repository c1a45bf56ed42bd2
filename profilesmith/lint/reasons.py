"""R20x: every rule of a recipe says why, and where it comes from."""

from collections.abc import Iterator

from profilesmith.lint.rule import Fault, LintRule
from profilesmith.lint.subjects import RecipeFile


def _why(file: RecipeFile) -> Iterator[Fault]:
    for rule in file.recipe.rules:
        if not rule.why.strip():
            yield Fault(f"Rule {rule.number} ({', '.join(rule.named)[:80]}) gives no reason.", rule.place.line)


def _source(file: RecipeFile) -> Iterator[Fault]:
    for rule in file.recipe.rules:
        if not rule.source.strip():
            yield Fault(f"Rule {rule.number} ({', '.join(rule.named)[:80]}) names no source.", rule.place.line)


RULES = (
    LintRule(
        "R201",
        "error",
        "Every rule has a reason",
        "Reviews show the reason beside the change: without it nobody can judge whether it holds for them.",
        'Add why = "..." to the rule: what would go wrong without it.',
        _why,
        key="rule.why",
    ),
    LintRule(
        "R202",
        "error",
        "Every rule has a source",
        "A number from a measurement and one from habit are not the same; the reader must know which it is.",
        'Add source = "...": where it is published, or "common practice".',
        _source,
        key="rule.source",
    ),
)
