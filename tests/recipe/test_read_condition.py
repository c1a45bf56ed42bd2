"""``when``: a condition that can never be met, or that says nothing, is refused once and with what to write instead.

A rule whose condition was dropped in silence would act on every printer, which is worse than no rule.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from profilesmith.foundation.comparison import Comparison
from profilesmith.recipe.recipe import Clause, FactRef, InputRef

ReadRecipe = Callable[..., Any]
INPUTS = """
[inputs.x]
kind = "length"
ask = "?"
[inputs.w]
kind = "temperature window"
ask = "?"
"""
NO_TEXT = "Use a fact that is a choice, a text or a single quantity."
TABLES = 'Write { input = "..." }, { fact = "..." } or a text.'
ONE_KIND = "Both must be of one kind."


def read(clause: str, read_recipe: ReadRecipe) -> tuple[Any, list[Any]]:
    recipe, problems = read_recipe(
        f'{INPUTS}[[rule]]\nsetting = "outer_wall.speed"\ncap = "1 mm/s"\nwhen = {{ {clause} }}\n'
    )
    return recipe, problems


@pytest.mark.parametrize(
    ("clause", "message", "hint"),
    [
        ('"machine.drive" = []', "it must be a text or some texts.", 'Write "remote".'),
        ('"machine.drive" = 3', "it must be a text or some texts.", 'Write "remote".'),
        ('"machine.drive" = ["direct", 3]', "it must be a text or some texts.", 'Write "remote".'),
        ('"machine.drive" = ["direct", "both"]', "'direct, both' never happens.", "It is one of direct, remote."),
        ('"spool.hardness" = "92"', "a hardness cannot be held against a text.", NO_TEXT),
        ('"spool.nozzle_window" = "x"', "a window cannot be held against a text.", NO_TEXT),
        ('"machine.tube_length" = { }', "[] is nothing to hold it against.", TABLES),
        ('"machine.tube_length" = { of = "x" }', "['of'] is nothing to hold it against.", TABLES),
        (
            '"machine.tube_length" = { input = "x", fact = "machine.nozzle_diameter" }',
            "['fact', 'input'] is nothing to hold it against.",
            TABLES,
        ),
        ('"machine.tube_length" = { fact = "machine.drive" }', "machine.drive is another kind of thing.", ONE_KIND),
        (
            '"machine.tube_length" = { fact = "machine.maximum_flow" }',
            "machine.maximum_flow is another kind of thing.",
            ONE_KIND,
        ),
        ('"machine.drive" = { input = "x" }', "x is another kind of thing.", ONE_KIND),
        ('"spool.nozzle_window" = { input = "w" }', "a window cannot be held against another.", NO_TEXT),
        ('"spool.hardness" = { fact = "spool.hardness" }', "a hardness cannot be held against another.", NO_TEXT),
        (
            '"machine.tube_length" = ["300 mm", "400 mm"]',
            "a list of quantities is never met.",
            'Write one comparison, such as "> 10 mm".',
        ),
        ('"machine.tube_length" = "> 3"', "'> 3' is no length.", 'Write "> 10 ..." with a unit of length.'),
    ],
)
def test_what_can_never_be_met(clause: str, message: str, hint: str, read_recipe: ReadRecipe) -> None:
    recipe, problems = read(clause, read_recipe)
    subject = clause.split('"')[1]
    assert recipe is None
    assert [(problem.code, problem.message, problem.hint) for problem in problems] == [
        ("when", f"when {subject}: {message}", hint)
    ]


@pytest.mark.parametrize(
    ("clause", "code", "message", "hint"),
    [
        ('"machine.tube_length" = { input = "y" }', "unknown-input", "There is no input 'y'.", "Add [inputs.y]."),
        ('"input.q" = "> 3 mm"', "unknown-input", "There is no input 'q'.", "Add [inputs.q]."),
        ('"machine.tube_length" = { input = 3 }', "unknown-input", "There is no input 3.", "Add [inputs.3]."),
        (
            '"machine.tube_length" = { fact = "machine.tubing_length" }',
            "unknown-fact",
            "There is no fact 'machine.tubing_length'.",
            "Did you mean 'machine.tube_length'?",
        ),
        ('"machine.drives" = "remote"', "unknown-fact", "There is no fact 'machine.drives'.", "machine.drive"),
    ],
)
def test_what_it_speaks_of_must_be_there(
    clause: str, code: str, message: str, hint: str, read_recipe: ReadRecipe
) -> None:
    recipe, problems = read(clause, read_recipe)
    assert recipe is None
    assert [(problem.code, problem.message) for problem in problems] == [(code, message)]
    assert hint in problems[0].hint


@pytest.mark.parametrize(
    ("clause", "read_as"),
    [
        ('"machine.drive" = "remote"', Clause("machine.drive", ("remote",))),
        ('"machine.drive" = ["remote", "direct"]', Clause("machine.drive", ("remote", "direct"))),
        ('"machine.tube_length" = "300 mm"', Clause("machine.tube_length", (), Comparison("=", "300 mm"))),
        ('"input.x" = "> 3 mm"', Clause("input.x", (), Comparison(">", "3 mm"))),
        ('"machine.tube_length" = { input = "x" }', Clause("machine.tube_length", against=InputRef("x"))),
        (
            '"machine.tube_length" = { fact = "machine.nozzle_diameter" }',
            Clause("machine.tube_length", against=FactRef("machine.nozzle_diameter")),
        ),
        ('"spool.material" = "flexible PLA"', Clause("spool.material", ("flexible PLA",))),
        ('"spool.material" = ["< 3", "> 4"]', Clause("spool.material", ("< 3", "> 4"))),
    ],
)
def test_what_is_read(clause: str, read_as: Clause, read_recipe: ReadRecipe) -> None:
    recipe, problems = read(clause, read_recipe)
    assert problems == []
    assert recipe.rules[0].when == (read_as,)


@pytest.mark.parametrize(
    ("clause", "condition", "words"),
    [
        (Clause("machine.drive", ("remote",)), ("machine.drive", "is", ("remote",)), "machine.drive is remote"),
        (
            Clause("machine.drive", ("remote", "direct")),
            ("machine.drive", "is", ("remote", "direct")),
            "machine.drive is remote or direct",
        ),
        (
            Clause("input.x", (), Comparison(">", "3 mm")),
            ("input.x", ">", ("3 mm",)),
            "input.x > 3 mm",
        ),
        (
            Clause("machine.tube_length", against=InputRef("x")),
            ("machine.tube_length", "is", ("the answer to x",)),
            "machine.tube_length is the answer to x",
        ),
        (
            Clause("machine.tube_length", against=FactRef("machine.nozzle_diameter")),
            ("machine.tube_length", "is", ("machine.nozzle_diameter",)),
            "machine.tube_length is machine.nozzle_diameter",
        ),
    ],
)
def test_what_a_ledger_keeps_of_it(clause: Clause, condition: tuple[Any, ...], words: str) -> None:
    assert (tuple(clause.condition()), str(clause)) == (condition, words)
