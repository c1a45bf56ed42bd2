"""Recipes: list, show, check."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from importlib import import_module
from pathlib import Path

from profilesmith.foundation.problem import Problem, refuse_if
from profilesmith.foundation.words import plural
from profilesmith.library.find import find, names
from profilesmith.library.open_files import open_recipe
from profilesmith.library.run_examples import run_examples
from profilesmith.recipe.recipe import Input, Recipe, Rule
from profilesmith.review.render import RENDERERS
from profilesmith.review.wording import visible
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.command import command
from profilesmith.workflows.read import read_recipes


def list_recipes(library: Path | None) -> str:
    """One line a recipe; a recipe that cannot be read says so."""
    lines = []
    for name, path in names("recipe", library):
        recipe, _ = open_recipe(path)
        title = (
            f"{recipe.version:<9} {recipe.title}"
            if recipe
            else f"cannot be read: see '{command('recipe check', name, library=library)}'"
        )
        lines.append(visible(f"{name:<18} {title}"))
    return "\n".join(lines) + "\n"


# A recipe alone has no values besides those it asks for: its whole sheet is its checklist.
RECIPE_FORMS = {
    "terminal": "checklist",
    "checklist": "checklist",
    "checklist-page": "checklist-page",
    "sheet": "checklist",
    "sheet-page": "checklist-page",
}
"""Form -> the rendering of a sheet that stands for it."""


def show_recipe(names: Sequence[str], library: Path | None, form: str = "terminal") -> str:
    """A recipe in full, or as a checklist for typing in by hand; several as one sheet. Raises Refused."""
    problems: list[Problem] = []
    recipes = read_recipes(names, library, problems)
    refuse_if(problems)
    if form == "terminal" and len(recipes) == 1:
        name = names[0]
        return _show(recipes[0], [*_evidence(name, recipes[0], library), "", _examples(name, recipes[0], library)])
    text: str = import_module(RENDERERS[RECIPE_FORMS[form]]).render_recipes(recipes, load_vocabulary())
    return text


def _examples(name: str, recipe: Recipe, library: Path | None) -> str:
    if not recipe.examples:
        return "No examples."
    runs = "runs it" if len(recipe.examples) == 1 else "runs them"
    return f"{plural(len(recipe.examples), 'example')}; '{command('recipe check', name, library=library)}' {runs}."


def _evidence(name: str, recipe: Recipe, library: Path | None) -> list[str]:
    """What is known of prints with it, and which lines of the evidence could not be read."""
    from profilesmith.evidence.tally import CAUTION, others_say, says
    from profilesmith.workflows.evidence_of import tally_of

    tally, problems = tally_of(recipe, library)
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
    from profilesmith.catalogue.asks import rule_asks

    head = f"  {rule.number}. {', '.join(rule.named)}: {rule_asks(rule, inputs)}"
    if rule.when:
        head += f", when {' and '.join(str(clause) for clause in rule.when)}"
    lines = [head]
    if rule.why:
        lines.append(f"     {rule.why}")
    if rule.source:
        lines.append(f"     source: {rule.source}")
    return lines


def check_recipes(wanted: tuple[str, ...], library: Path | None) -> tuple[str, int]:
    """(report, exit code): 2 when a recipe cannot be read, 1 when an example fails."""
    lines, code = [], 0
    for name in wanted or tuple(name for name, _ in names("recipe", library)):
        path, missing = find(name, "recipe", library)
        if path is None:
            refuse_if([missing] if missing else [])
            continue
        recipe, problems = open_recipe(path)
        if recipe is None:
            lines += [visible(line) for problem in problems for line in str(problem).split("\n")]
            code = 2
            continue
        results = run_examples(recipe, load_vocabulary())
        faults = [(result, fault) for result in results for fault in result.faults]
        passed = sum(not result.faults for result in results)
        lines.append(
            visible(
                f"{recipe.name} {recipe.version}: {plural(len(recipe.rules), 'rule')}, {passed} of "
                f"{len(results)} examples pass"
            )
        )
        lines += [
            visible(f"  {recipe.file}:{result.line}: example {result.number}: {fault}") for result, fault in faults
        ]
        code = max(code, 1 if faults else 0)
    return "\n".join(lines) + "\n", code
