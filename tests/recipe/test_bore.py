"""The nozzle's bore: what a text says answers for the facts, where it says one thing."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest

from profilesmith.facts.facts import Fact
from profilesmith.foundation.place import Place
from profilesmith.profile.profile import profile_of
from profilesmith.recipe.tool import BORE, FITTED, other_bore, with_bore

F = Fraction


@pytest.mark.parametrize(
    ("values", "bore"),
    [
        ((F("0.4"),), F("0.4")),
        ((F("0.4"), F("0.4")), F("0.4")),  # both tools have it
        ((F("0.4"), F("0.6")), None),  # which of them prints, nobody said
        ((F(0),), None),  # a text that does not know it
        ((F(-1),), None),
        (("0.4",), None),
        ((True,), None),
        ((), None),
    ],
)
def test_the_text_answers_where_it_names_one_bore(values: tuple[Any, ...], bore: Fraction | None) -> None:
    facts = with_bore(profile_of({BORE: values} if values else {}), {})
    assert (facts[FITTED].value if facts else None) == bore


def test_the_facts_file_goes_first() -> None:
    facts = {FITTED: Fact(F("0.6"), Place("facts.toml", 1))}
    assert with_bore(profile_of({BORE: (F("0.4"),)}), facts) is facts


def test_one_recipe_that_asks_is_enough(read_recipe: Callable[..., Any]) -> None:
    """A second recipe that does not look at the nozzle must not hide the conflict of the first."""
    speed = '[[rule]]\nsetting = "outer_wall.speed"\ncap = "40 mm/s"\n'
    asking, _ = read_recipe(speed + 'when = { "machine.nozzle_diameter" = "<= 0.4 mm" }\n')
    deaf, _ = read_recipe(speed)
    base, wide = profile_of({BORE: (F("0.4"),)}), {FITTED: Fact(F("0.6"), Place("f.toml", 2), "0.6 mm")}
    for recipes in ([asking, deaf], [deaf, asking]):
        (problem,) = other_bore(base, wide, recipes)
        assert (problem.code, problem.place.line) == ("nozzle-differs", 2)
    assert other_bore(base, wide, [deaf, deaf]) == []
    assert other_bore(profile_of({BORE: (F("0.4"), F("0.6"))}), wide, [asking]) == []
    assert other_bore(profile_of({}), wide, [asking]) == []
    assert other_bore(base, {}, [asking]) == []


@pytest.mark.parametrize(
    "rule",
    [
        'cap = { fact = "machine.nozzle_diameter" }',
        'raise_to = "0.1 mm"\nwhen = { "machine.tube_length" = { fact = "machine.nozzle_diameter" } }',
        'raise_to = "0.1 mm"\nwhen = { "machine.nozzle_diameter" = "0.4 mm" }',
    ],
)
def test_each_way_to_ask_for_the_bore(rule: str, read_recipe: Callable[..., Any]) -> None:
    recipe, problems = read_recipe(f'[[rule]]\nsetting = "layer.height"\n{rule}\n')
    assert problems == []
    base, wide = profile_of({BORE: (F("0.4"),)}), {FITTED: Fact(F("0.6"), Place(), "0.6 mm")}
    assert len(other_bore(base, wide, [recipe])) == 1


def test_an_input_that_the_bore_answers_asks_for_it(read_recipe: Callable[..., Any]) -> None:
    text = '[inputs.bore]\nkind = "length"\nfact = "machine.nozzle_diameter"\nask = "Bore?"\n'
    recipe, _ = read_recipe(text + '[[rule]]\nsetting = "layer.height"\ncap = { input = "bore" }\n')
    base, wide = profile_of({BORE: (F("0.4"),)}), {FITTED: Fact(F("0.6"), Place(), "0.6 mm")}
    assert len(other_bore(base, wide, [recipe])) == 1
