"""What a value depends on is worked out before it: a number taken too early is that of the old profile."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest

from profilesmith.profile.profile import Entry, profile_of
from profilesmith.recipe.order import links, needs, working_order

F = Fraction


@pytest.mark.parametrize(
    ("setting", "line", "names"),
    [
        ("outer_wall.speed", 'cap = "40 mm/s"', set()),
        ("outer_wall.speed", 'cap = { fact = "spool.maximum_printing_speed" }', set()),
        ("outer_wall.speed", 'cap = { of = "infill.speed" }', {"infill.speed"}),
        (
            "outer_wall.speed",
            'cap = { flow = "4 mm3/s" }',
            {"outer_wall.bead_width", "outer_wall.height", "bead.width", "layer.height", "bead.flow"},
        ),
        ("wall.count", 'raise_to = { beads_for = "1 mm" }', {"outer_wall.bead_width", "bead.width", "layer.height"}),
        ("top.layers", 'raise_to = { layers_for = "1 mm" }', {"layer.height"}),
        ("bottom.layers", 'raise_to = { layers_for = "1 mm" }', {"layer.height", "first_layer.height"}),
        ("fan.off_layers", 'raise_to = { layers_for = "1 mm" }', {"layer.height", "first_layer.height"}),
        ("top.layers", 'hold = "thickness"', {"layer.height"}),
    ],
)
def test_what_an_action_looks_at(setting: str, line: str, names: set[str], read_recipe: Callable[..., Any]) -> None:
    recipe, problems = read_recipe(f'[[rule]]\nsetting = "{setting}"\n{line}\n')
    assert problems == []
    (action,) = recipe.rules[0].actions
    assert needs(action, setting) == names
    order, circle = working_order((), [recipe])
    assert circle == []
    assert order[-1] == setting
    assert {*order} == names | {setting}


def test_shares_and_switches_hang_on_what_they_are_of() -> None:
    base = profile_of({"outer_wall.speed": (F(60),), "first_layer.speed": (F(30),)})
    assert links(base) == ()
    entry: Entry = base.entries["first_layer.speed"]._replace(relative_to="outer_wall.speed", shares=(F(1, 2),))
    linked = links(base._replace(entries={**base.entries, "first_layer.speed": entry}))
    assert linked == (("first_layer.speed", "outer_wall.speed", ""),)
    assert working_order(linked, []) == (["outer_wall.speed", "first_layer.speed"], [])
