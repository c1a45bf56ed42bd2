"""R60x: what a recipe asks for."""

from collections.abc import Iterator

from profilesmith.lint.rule import Fault, LintRule
from profilesmith.lint.subjects import RecipeFile
from profilesmith.recipe.recipe import InputRef, Recipe, parts


def _used(recipe: Recipe) -> set[str]:
    names: set[str] = set()
    for rule in recipe.rules:
        names |= {clause.subject.removeprefix("input.") for clause in rule.when if clause.subject.startswith("input.")}
        names |= {clause.against.name for clause in rule.when if isinstance(clause.against, InputRef)}
        operands = (operand for action in rule.actions for operand in action.operands)
        names |= {part.name for operand in operands for part in parts(operand) if isinstance(part, InputRef)}
    return names


def _unused(file: RecipeFile) -> Iterator[Fault]:
    used = _used(file.recipe)
    for name in file.recipe.inputs:
        if name not in used:
            yield Fault(f"No rule uses the input {name!r}.", file.lines.get(("inputs", name)))


RULES = (
    LintRule(
        "R601",
        "error",
        "Every input asks a question",
        "Where no fact answers an input, its question is all that a person sees.",
        'Add ask = "..." with a question that a maker can answer.',
        codes=("ask",),
    ),
    LintRule(
        "R602",
        "error",
        "Every input is used",
        "A question whose answer decides nothing wastes the time of everybody who is asked.",
        "Use it in a rule, or take it out.",
        _unused,
    ),
)
