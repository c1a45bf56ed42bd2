"""A number whose key is a switch as well: whether anybody says what is written when the switch goes on."""

from __future__ import annotations

from fractions import Fraction

import pytest

from profilesmith.ledger import Cause
from profilesmith.profile.profile import Coupling, profile_of
from profilesmith.recipe.number_of_switch import says_no_number
from profilesmith.recipe.operations import Demand
from profilesmith.recipe.rule_on_setting import Resolved

F = Fraction
LAYERS, RAFT = "raft.layers", "raft.on"


def nobody_says(low: int | None, lowest: int | None, on: int | None = None, before: bool = False) -> bool:
    base = profile_of({LAYERS: (F(0),), RAFT: (before,)})
    derived = profile_of({LAYERS: (F(0),), RAFT: (True,)})
    coupling = Coupling(RAFT, None if on is None else F(on), F(0), None if lowest is None else F(lowest))
    asked = [] if low is None else [Resolved(None, Demand(low=F(low)), Cause("rule"))]  # type: ignore[arg-type]
    return says_no_number(coupling, base.entries[LAYERS], base, derived, asked)


@pytest.mark.parametrize(
    ("low", "nobody"),
    [
        (None, True),
        (1, True),  # the text would still read as off
        (2, False),  # the least number that reads as on
        (3, False),
    ],
)
def test_a_rule_on_the_number_says_it_from_the_least_that_reads_as_on(low: int | None, nobody: bool) -> None:
    assert nobody_says(low, 2) is nobody


def test_the_map_says_it_or_nothing_was_turned() -> None:
    assert not nobody_says(None, 2, on=3)
    assert not nobody_says(None, 2, before=True)
    assert nobody_says(3, None)  # the map does not say what reads as on
