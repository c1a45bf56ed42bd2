"""A number whose key is a switch as well: whether anybody says what is written when the switch goes on."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest

from profilesmith.ledger import Cause, Note
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


def test_a_bound_that_the_switch_s_own_number_meets_names_the_switch(
    derived: Callable[..., Any], bind: Callable[..., str], rule: Callable[..., str]
) -> None:
    """The text held 0: what is there since, and why, a maker would otherwise look for in vain."""
    bindings = bind(LAYERS, "pad") + bind(RAFT, "pad", 'on_when = "> 0"\non = "3"\noff = "0"')
    made = derived("pad = 0\n", bindings, rule(RAFT, 'set = "on"') + rule(LAYERS, 'raise_to = "2"'))
    (row,) = [row for row in made.ledger.rows if row.setting == LAYERS and row.cause.rule == 2]
    assert (row.status, row.derived, row.notes) == ("kept", (3,), (Note("met since", (RAFT,)),))
