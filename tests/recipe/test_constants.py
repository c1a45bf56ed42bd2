"""Which rules come to the same in every profile, and so are worked out once for a whole batch."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from profilesmith.recipe.constants import is_constant


@pytest.mark.parametrize(
    ("setting", "line", "constant"),
    [
        ("outer_wall.speed", 'cap = "40 mm/s"', True),
        ("outer_wall.speed", 'cap = { fact = "spool.maximum_printing_speed" }', True),
        ("outer_wall.speed", 'scale = "70 %"', True),
        ("nozzle.temperature", 'window = ["210 °C", "220 °C"]\naim = "215 °C"', True),
        # what hangs on the profile: another profile of the batch has another number
        ("top.layers", 'hold = "thickness"', False),
        ("outer_wall.speed", 'cap = { of = "infill.speed" }', False),
        ("outer_wall.speed", 'cap = { flow = "4 mm3/s" }', False),
        ("wall.count", 'raise_to = { beads_for = "1 mm" }', False),
        ("outer_wall.speed", 'cap = "40 mm/s"\nraise_to = { of = "infill.speed" }', False),
    ],
)
def test_a_rule_that_looks_at_the_profile_is_none(
    setting: str, line: str, constant: bool, read_recipe: Callable[..., Any]
) -> None:
    recipe, problems = read_recipe(f'[[rule]]\nsetting = "{setting}"\n{line}\n')
    assert problems == []
    assert is_constant(recipe.rules[0]) is constant
