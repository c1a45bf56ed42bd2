"""A rule without an operation: the keeper who misspelled one is told which, and nobody is sent after a false one."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from profilesmith.recipe.operations import BY_NAME

ALL = f"Give one of {', '.join(BY_NAME)}."  # whatever the table has


@pytest.mark.parametrize(
    ("lines", "codes", "hints"),
    [
        ('why = "x"', ["no-operation"], [ALL]),
        ('rais_to = "20 mm/s"', ["unknown-operation"], ["Did you mean 'raise_to'?"]),
        (
            'caps = "20 mm/s"\nsett = "1 mm/s"',
            ["unknown-operation"] * 2,
            ["Did you mean 'cap'?", "Did you mean 'set'?"],
        ),
        # far from every operation: both what stands there and what is missing are told
        ('value = "20 mm/s"', ["no-operation", "unknown-key"], [ALL]),
        # a key of the rule itself is no misspelled operation
        ('when = { "machine.drive" = "direct" }', ["no-operation"], [ALL]),
        ('source = "x"', ["no-operation"], [ALL]),
        ('except = ["travel.speed"]', ["no-operation"], [ALL]),
    ],
)
def test_what_was_meant(lines: str, codes: list[str], hints: list[str], read_recipe: Callable[..., Any]) -> None:
    recipe, problems = read_recipe(f'[[rule]]\nsetting = "outer_wall.speed"\n{lines}\n')
    assert recipe is None
    assert [problem.code for problem in problems] == codes
    assert [problem.hint for problem in problems][: len(hints)] == hints
