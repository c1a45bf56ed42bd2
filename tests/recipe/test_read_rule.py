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


WORDS = '[inputs.fill]\nkind = "choice"\nvalues = [{}]\nask = "Which?"\n'
WINDOW = '[inputs.w]\nkind = "temperature window"\nask = "?"\n'


def refusals(read_recipe: ReadRecipe, text: str) -> list[tuple[str, str]]:
    return [(problem.code, problem.message) for problem in read_recipe(text)[1]]


def test_an_answer_can_be_no_word_that_the_setting_does_not_know(read_recipe: ReadRecipe) -> None:
    """Else a stranger's recipe could have any text at all written."""
    line = '[[rule]]\nsetting = "infill.pattern"\nset = {{ input = "fill" }}\n'.replace("{{", "{").replace("}}", "}")
    assert refusals(read_recipe, WORDS.format('"grid", "gyroid"') + line) == []
    both = line.replace('"infill.pattern"', '["infill.pattern", "outer_wall.speed"]')
    mixed = [("operand", "fill is a choice, the setting is not.")]
    assert refusals(read_recipe, WORDS.format('"grid", "gyroid"') + both) == mixed
    said = "fill may be 'wobbly', which the setting cannot."
    assert refusals(read_recipe, WORDS.format('"grid", "wobbly"') + line) == [("operand", said)]


@pytest.mark.parametrize(
    ("setting", "line", "message"),
    [
        ("nozzle.temperature", 'window = { input = "w" }', ""),
        ("nozzle.temperature", 'window = { fact = "spool.nozzle_window" }', ""),
        ("nozzle.temperature", 'window = { of = "bed.temperature" }', "window needs two ends."),
        ("nozzle.temperature", "window = { }", "window needs two ends."),
        ("nozzle.temperature", 'window = "210 °C"', "window needs two ends."),
        ("nozzle.temperature", "window = 210", "window needs two ends."),
        ("nozzle.temperature", 'window = ["210 °C"]', "window needs 2 value(s)."),
        ("nozzle.temperature", 'cap = ["210 °C", "220 °C"]', "cap needs 1 value(s)."),
        (
            "nozzle.temperature",
            'cap = { input = "w" }',
            "w is a window, not what cap needs.",
        ),
        (
            "nozzle.temperature",
            'window = [{ input = "w" }, "220 °C"]',
            "w does not fit: window takes one window, or two single values.",
        ),
        (
            "nozzle.temperature",
            'window = { fact = "machine.maximum_nozzle_temperature" }',
            "machine.maximum_nozzle_temperature does not fit: window takes one window, or two single values.",
        ),
        (
            "nozzle.temperature",
            'shift = { fact = "machine.maximum_nozzle_temperature" }',
            "machine.maximum_nozzle_temperature is a temperature, not a step of one.",
        ),
        (
            "outer_wall.speed",
            'cap = { fact = "machine.nozzle_diameter" }',
            "machine.nozzle_diameter is a length; the setting takes a speed.",
        ),
        (
            "outer_wall.speed",
            'scale = { fact = "machine.nozzle_diameter" }',
            "machine.nozzle_diameter is a length; scale takes a ratio.",
        ),
        ("wall.count", 'raise_to = { beads_for = "1 mm", minus = "1 mm" }', "['beads_for', 'minus'] is no operand."),
        ("outer_wall.speed", 'cap = { of = "infill.speed", minus = "1 mm/s" }', "['minus', 'of'] is no operand."),
        ("outer_wall.speed", "cap = true", "cap = true is not a text."),
        ("outer_wall.speed", "cap = 40", "cap = 40 is not a text."),
        ("outer_wall.speed", 'cap = { of = "infill.sped" }', "'infill.sped' is no setting with a number."),
        ("outer_wall.speed", 'cap = { of = "raft.on" }', "'raft.on' is no setting with a number."),
        (
            'outer_wall.speed", "layer.height',
            'cap = { of = "layer.height" }',
            "layer.height is a length, the setting is not.",
        ),
        ("outer_wall.speed", 'cap = { of = "layer.height" }', "layer.height is a length, the setting is not."),
        (
            "nozzle.temperature",
            'cap = { of = "first_layer.nozzle_temperature", times = 2 }',
            "times = 2 cannot be used.",
        ),
        ("nozzle.temperature", 'cap = { of = "first_layer.nozzle_temperature", times = 1, plus = "5 °C" }', ""),
        ("outer_wall.speed", 'cap = { of = "infill.speed", times = "many" }', "times = 'many' cannot be used."),
        ("outer_wall.speed", 'cap = { of = "infill.speed", plus = "3 mm" }', "plus = '3 mm' is no speed."),
        ("outer_wall.speed", 'cap = { of = "infill.speed", plus = 3 }', "plus = 3 is no speed."),
        ("outer_wall.speed", 'cap = { of = "infill.speed", plus = "" }', ""),
    ],
)
def test_the_one_thing_that_is_wrong_is_said(setting: str, line: str, message: str, read_recipe: ReadRecipe) -> None:
    said = refusals(read_recipe, f'{WINDOW}[[rule]]\nsetting = ["{setting}"]\n{line}\n')
    assert said == ([("operand", message)] if message else [])


def test_a_value_that_fits_none_of_the_settings_is_complained_of_once(read_recipe: ReadRecipe) -> None:
    """Once for a rule, not once for each of its settings: what is to be mended is one text."""
    names = '["outer_wall.speed", "inner_wall.speed", "infill.speed"]'
    (problem,) = read_recipe(f'[[rule]]\nsetting = {names}\ncap = "4 mm"\n')[1]
    assert problem.message.startswith("outer_wall.speed")
