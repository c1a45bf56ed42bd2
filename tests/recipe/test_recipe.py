"""An operand in words and as a ledger keeps it: what a recipe names must be told apart years later."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest

from profilesmith import ledger
from profilesmith.recipe.recipe import (
    CountRef,
    FactRef,
    Fixed,
    FlowRef,
    InputRef,
    Operand,
    SettingRef,
    operand_data,
    parts,
)

F = Fraction
SPEED = Fixed("40 mm/s")
TWO = CountRef("layers_for", Fixed("1 mm"), InputRef("more"))


@pytest.mark.parametrize(
    ("operand", "data", "words", "made_of"),
    [
        (SPEED, ledger.Operand("fixed", "40 mm/s"), "40 mm/s", (SPEED,)),
        (InputRef("pace"), ledger.Operand("input", "pace"), "the answer to pace", (InputRef("pace"),)),
        (FactRef("a.b"), ledger.Operand("fact", "a.b"), "a.b", (FactRef("a.b"),)),
        (SettingRef("a.b"), ledger.Operand("setting", "a.b"), "a.b", (SettingRef("a.b"),)),
        (
            SettingRef("a.b", F("1.5"), "3 mm"),
            ledger.Operand("setting", "a.b", F("1.5"), "3 mm"),
            "1.5 × a.b plus 3 mm",
            (SettingRef("a.b", F("1.5"), "3 mm"),),
        ),
        (
            FlowRef(FactRef("a.b")),
            ledger.Operand("fact", "a.b", flow=True),
            "the speed at which the bead needs a.b",
            (FactRef("a.b"),),
        ),
        (
            CountRef("beads_for", Fixed("1 mm")),
            ledger.Operand("fixed", "1 mm", counts="beads_for"),
            "as many beads as make 1 mm",
            (Fixed("1 mm"),),
        ),
        (
            TWO,
            ledger.Operand("fixed", "1 mm", plus="the answer to more", counts="layers_for"),
            "as many layers as make 1 mm plus the answer to more",
            (Fixed("1 mm"), InputRef("more")),
        ),
    ],
)
def test_each_kind(operand: Operand, data: ledger.Operand, words: str, made_of: tuple[Operand, ...]) -> None:
    assert (operand_data(operand), str(operand), parts(operand)) == (data, words, made_of)


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ('cap = "40 mm/s"', "cap 40 mm/s"),
        ('cap = "40 mm/s"\nraise_to = "20 mm/s"', "cap 40 mm/s, raise_to 20 mm/s"),
        ('window = ["20 mm/s", "40 mm/s"]', "window 20 mm/s to 40 mm/s"),
        ('cap = { of = "infill.speed", times = 0.5 }', "cap 0.5 × infill.speed"),
    ],
)
def test_what_a_rule_asks_in_the_recipe_s_own_words(line: str, words: str, read_recipe: Callable[..., Any]) -> None:
    recipe, _ = read_recipe(f'[[rule]]\nsetting = "outer_wall.speed"\n{line}\n')
    assert recipe.rules[0].demand() == words
