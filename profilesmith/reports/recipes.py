"""Recipes in words: listed, shown in full or as a sheet, and what their examples came to."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from importlib import import_module
from pathlib import Path

from profilesmith.catalogue.asks import rule_asks
from profilesmith.evidence.tally import CAUTION, Tally, others_say, says
from profilesmith.foundation.problem import Problem
from profilesmith.foundation.words import plural
from profilesmith.recipe.recipe import Input, Recipe, Rule
from profilesmith.review.render import RENDERERS
from profilesmith.review.render.command import command
from profilesmith.review.wording import visible
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.recipes import CheckedRecipe

# A recipe alone has no values besides those it asks for: its whole sheet is its checklist.
RECIPE_FORMS = {
    "terminal": "checklist",
    "checklist": "checklist",
    "checklist-page": "checklist-page",
    "sheet": "checklist",
    "sheet-page": "checklist-page",
}
"""Form -> the rendering of a sheet that stands for it."""


def recipes_list(recipes: Iterable[tuple[str, Recipe | None]], library: Path | None) -> str:
    """One line a recipe; a recipe that cannot be read says so."""
    lines = []
    for name, recipe in recipes:
        if recipe is None:
            title = f"cannot be read: see '{command('recipe check', name, library=library)}'"
        else:
            title = f"{recipe.version:<9} {recipe.title}"
        lines.append(visible(f"{name:<18} {title}"))
    return "\n".join(lines) + "\n"


def recipes_sheet(recipes: Sequence[Recipe], form: str) -> str:
    """A checklist for typing in by hand, several as one. form: of RECIPE_FORMS."""
    text: str = import_module(RENDERERS[RECIPE_FORMS[form]]).render_recipes(recipes, load_vocabulary())
    return text


def recipe_in_full(
    recipe: Recipe, name: str, prints: tuple[Tally, Sequence[Problem]], library: Path | None = None
) -> str:
    """Every rule with its reason. name: as it was called; prints: what is known of them, and what could not be read."""
    return _show(recipe, [*_evidence(name, *prints, library), "", _examples(name, recipe, library)])


def _examples(name: str, recipe: Recipe, library: Path | None) -> str:
    if not recipe.examples:
        return "No examples."
    runs = "runs it" if len(recipe.examples) == 1 else "runs them"
    return f"{plural(len(recipe.examples), 'example')}; '{command('recipe check', name, library=library)}' {runs}."


def _evidence(name: str, tally: Tally, problems: Sequence[Problem], library: Path | None) -> list[str]:
    lines = [says(tally), others_say(tally), CAUTION if tally.records else ""]
    lines += [f"Not counted: {problem.place}: {problem.message}" for problem in problems[:5]]
    if tally.records or tally.others:
        lines.append(f"'{command('evidence list', name, library=library)}' shows each print.")
    return ["", "Evidence", *(f"  {line}" for line in lines if line)]


def _show(recipe: Recipe, ending: list[str]) -> str:
    lines = [f"{recipe.name} {recipe.version}: {recipe.title}"]
    if recipe.source_material or recipe.target_material:
        lines.append(f"from {recipe.source_material} to {recipe.target_material}")
    lines.append(f"licence {recipe.licence or 'not said'}; by {', '.join(recipe.authors) or 'not said'}; {recipe.file}")
    if recipe.once:
        lines.append("To be applied once: it scales or shifts values.")
    if recipe.inputs:
        lines += ["", "It asks for"]
    for item in recipe.inputs.values():
        fact = f"; answered by the fact {item.fact}" if item.fact else ""
        default = f"; else {item.kind.show(item.default)}" if item.default is not None else "; no default"
        lines.append(f"  {item.name}: {item.ask}{fact}{default}")
    lines += ["", "Rules"]
    for rule in recipe.rules:
        lines += _rule(rule, recipe.inputs)
    if recipe.cautions:
        lines += ["", "Take care", *(f"  - {text}" for text in recipe.cautions)]
    lines += ending
    return "\n".join(visible(line) for line in lines) + "\n"


def _rule(rule: Rule, inputs: Mapping[str, Input]) -> list[str]:
    head = f"  {rule.number}. {', '.join(rule.named)}: {rule_asks(rule, inputs)}"
    if rule.when:
        head += f", when {' and '.join(str(clause) for clause in rule.when)}"
    lines = [head]
    if rule.why:
        lines.append(f"     {rule.why}")
    if rule.source:
        lines.append(f"     source: {rule.source}")
    return lines


def checked_lines(checked: Iterable[CheckedRecipe]) -> Iterable[str]:
    """A line a recipe, and one for each example that failed; of one that cannot be read its mistakes."""
    for item in checked:
        yield from (visible(line) for problem in item.problems for line in str(problem).split("\n"))
        recipe = item.recipe
        if recipe is None:
            continue
        passed = sum(not result.faults for result in item.results)
        yield visible(
            f"{recipe.name} {recipe.version}: {plural(len(recipe.rules), 'rule')}, {passed} of "
            f"{len(item.results)} examples pass"
        )
        for result in item.results:
            for fault in result.faults:
                yield visible(f"  {recipe.file}:{result.line}: example {result.number}: {fault}")
