"""R50x: a recipe's own examples, and rules that none of them shows at work."""

from collections.abc import Iterator

from profilesmith.ledger import MOVING
from profilesmith.library.run_examples import example_ledger
from profilesmith.lint.rule import Fault, LintRule
from profilesmith.lint.subjects import RecipeFile
from profilesmith.recipe.recipe import Example


def _present(file: RecipeFile) -> Iterator[Fault]:
    if not file.recipe.examples:
        yield Fault("The recipe has no example.", file.lines.get(("recipe",)))


def _pass(file: RecipeFile) -> Iterator[Fault]:
    for result in file.results:
        for fault in result.faults:
            yield Fault(f"Example {result.number}: {fault}.", result.line)


def _dead(file: RecipeFile) -> Iterator[Fault]:
    if not file.results:
        return  # told already
    alive: set[int] = set()
    for example, result in zip(file.recipe.examples, file.results, strict=True):
        for row in result.ledger.rows:
            # Without a key for it a rule's value is set by hand: at work where the example expects it.
            by_hand = row.status == "by hand" and row.setting in example.expect
            if row.status in MOVING or by_hand:
                alive.add(row.cause.rule)
        overruled = {row.cause.rule for row in result.ledger.of_status("overruled") if row.base} - alive
        alive |= {number for number in overruled if _changes_alone(file, example, number)}
    for rule in file.recipe.rules:
        if rule.number not in alive:
            yield Fault(
                (
                    f"Rule {rule.number} ({', '.join(rule.named)[:80]}: {rule.demand()}) finds nothing to "
                    "change in any example."
                ),
                rule.place.line,
            )


def _changes_alone(file: RecipeFile, example: Example, number: int) -> bool:
    """Whether an overruled rule would have found something to change: a stricter one only went further."""
    rules = tuple(rule for rule in file.recipe.rules if rule.number == number)
    ledger = example_ledger(file.recipe._replace(rules=rules), example, file.vocabulary, [])
    return any(row.status in MOVING for row in ledger.rows)


RULES = (
    LintRule(
        "R501",
        "error",
        "The recipe has an example",
        "Examples show what is meant and are the recipe's own tests.",
        "Add an [[example]] with given and expect.",
        _present,
        key="example",
    ),
    LintRule(
        "R502",
        "error",
        "Every example passes",
        "An example that fails means that the recipe, or its author, is mistaken.",
        "Correct the rule or the example.",
        _pass,
    ),
    LintRule(
        "R503",
        "hint",
        "Every rule finds something to change in an example",
        "A rule that no example shows at work may never bind, by a wrong unit, a wrong condition or another rule.",
        "Add an example in which it does, or take the rule out.",
        _dead,
    ),
)
