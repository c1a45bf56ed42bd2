"""What an operation that cannot stand for a setting is answered with, also one that the table does not hold yet."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from profilesmith.recipe.operations import BY_NAME, RATIO

ReadRecipe = Callable[..., Any]


def complaint(read_recipe: ReadRecipe, setting: str, line: str) -> str:
    _, problems = read_recipe(f'[[rule]]\nsetting = "{setting}"\n{line}\n')
    assert problems
    return " ".join(f"{problem.message} {problem.hint}" for problem in problems)


def test_only_a_temperature_is_said_to_have_no_share(read_recipe: ReadRecipe, monkeypatch: pytest.MonkeyPatch) -> None:
    """A keeper who multiplies a speed by an operation that is not for speeds must not be sent after a temperature."""
    only_lengths = BY_NAME["scale"]._replace(name="stretch", kinds=frozenset({"length"}))
    assert only_lengths.reads == RATIO
    monkeypatch.setitem(BY_NAME, "stretch", only_lengths)
    assert "stretch is not for a speed" in complaint(read_recipe, "outer_wall.speed", 'stretch = "70 %"')
    assert "a temperature cannot be multiplied" in complaint(read_recipe, "nozzle.temperature", 'scale = "70 %"')
    only_lengths = BY_NAME["cap"]._replace(name="press", kinds=frozenset({"length"}))
    monkeypatch.setitem(BY_NAME, "press", only_lengths)
    assert "press is not for a temperature" in complaint(read_recipe, "nozzle.temperature", 'press = "200 °C"')


@pytest.mark.parametrize(
    ("setting", "line", "use"),
    [
        ("nozzle.temperature", 'scale = "70 %"', "Use shift."),
        ("brim.on", 'cap = "1 mm"', "Use set."),
        ("brim.on", 'scale = "70 %"', "Use set."),  # what a scale gives way to for numbers is no help for a switch
    ],
)
def test_what_to_use_instead(setting: str, line: str, use: str, read_recipe: ReadRecipe) -> None:
    assert use in complaint(read_recipe, setting, line)
