"""A recipe's own examples: derive what is given and hold it against what is expected."""

from profilesmith.facts.facts import Fact, Facts, fact_kinds, read_fact, said
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger import Ledger
from profilesmith.profile.profile import Entry, Grid, Origin, Profile
from profilesmith.recipe.apply_recipes import apply_recipes
from profilesmith.recipe.recipe import Example, Recipe
from profilesmith.vocabulary.setting import Unreadable, Value, Vocabulary, read_value


class ExampleResult(NamedTuple):
    """One example. faults: sentences; empty when it passed. ledger: what the recipe made of it."""

    number: int
    line: int | None
    faults: tuple[str, ...]
    ledger: Ledger


def run_examples(recipe: Recipe, vocabulary: Vocabulary) -> list[ExampleResult]:
    """Run every example of a recipe."""
    return [_run(recipe, example, number, vocabulary) for number, example in enumerate(recipe.examples, 1)]


def _run(recipe: Recipe, example: Example, number: int, vocabulary: Vocabulary) -> ExampleResult:
    faults: list[str] = []
    ledger = example_ledger(recipe, example, vocabulary, faults)
    faults += _faults(ledger, example, vocabulary)
    return ExampleResult(number, example.place.line, tuple(faults), ledger)


def _values(texts: dict[str, str], vocabulary: Vocabulary, faults: list[str]) -> dict[str, Value]:
    values: dict[str, Value] = {}
    for name, text in texts.items():
        value = read_value(vocabulary.settings[name], text)
        if isinstance(value, Unreadable):
            faults.append(f"{name}: {value.reason}")
        else:
            values[name] = value
    return values


def example_ledger(recipe: Recipe, example: Example, vocabulary: Vocabulary, faults: list[str]) -> Ledger:
    """What a recipe makes of an example's given settings."""
    given = _values(dict(example.given), vocabulary, faults)
    entries = {
        name: Entry(
            setting=name,
            values=(value,),
            origin=Origin("", 0, "", ""),
            writable=None,
            grids=(Grid(vocabulary.settings[name].step or Grid().step),),
        )
        for name, value in given.items()
    }
    base = Profile(entries=entries, addable={}, absent={})
    facts: Facts = _facts(example, faults)
    return apply_recipes(base, [recipe], facts, _answers(recipe, example, faults), vocabulary)


def _facts(example: Example, faults: list[str]) -> dict[str, Fact]:
    facts: dict[str, Fact] = {}
    for name, written in example.facts.items():
        kind = fact_kinds().get(name)
        value = read_fact(kind, written) if kind else None
        if value is None:
            faults.append(f"the fact {name} = {written!r} cannot be read")
        else:
            facts[name] = Fact(value, example.place, said(written))
    return facts


def _answers(recipe: Recipe, example: Example, faults: list[str]) -> dict[str, Fact]:
    answers: dict[str, Fact] = {}
    for name, text in example.answers.items():
        value = read_fact(recipe.inputs[name].kind, text)
        if value is None:
            faults.append(f"the answer {name} = {text!r} cannot be read")
        else:
            answers[name] = Fact(value, example.place, text)
    return answers


def _faults(ledger: Ledger, example: Example, vocabulary: Vocabulary) -> list[str]:
    faults = [problem.message for problem in ledger.problems]
    expected = _values(dict(example.expect), vocabulary, faults)
    for name, entry in ledger.base.entries.items():
        setting = vocabulary.settings[name]
        wanted = expected.pop(name, entry.value)
        got = ledger.derived.entries[name].value
        if got != wanted:
            faults.append(f"{name} should be {setting.show(wanted)} but is {setting.show(got)}")
    by_hand = {row.setting: row.derived for row in ledger.of_status("by hand") if row.derived}
    for name, wanted in expected.items():
        got_values = by_hand.get(name, ())
        if got_values != (wanted,):
            shown = vocabulary.settings[name].show(got_values[0]) if got_values else "nothing"
            faults.append(f"{name} should be {vocabulary.settings[name].show(wanted)} but is {shown}")
    return faults
