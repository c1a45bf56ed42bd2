"""An operand in words and as a ledger keeps it: what a recipe names must be told apart years later."""

from __future__ import annotations

from fractions import Fraction

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
