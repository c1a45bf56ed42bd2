"""The rows that no rule of a recipe writes: hard limits that move values, shares that follow."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest

from profilesmith.facts.facts import Fact
from profilesmith.foundation.place import Place
from profilesmith.ledger.ledger import TOOL
from profilesmith.profile.profile import Entry, Origin, profile_of
from profilesmith.recipe.apply_recipes import apply_recipes
from profilesmith.recipe.setting_rows import SettingRows
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

F = Fraction
WALL, FIRST = "outer_wall.speed", "first_layer.speed"


def test_the_plausible_range_that_moves_a_value_has_a_row(read_recipe: Callable[..., Any]) -> None:
    """The rule itself is met: without the row a value would change for no reason that anybody can read."""
    recipe, _ = read_recipe(f'[[rule]]\nsetting = "{WALL}"\nraise_to = "1 mm/s"\n')
    vocabulary = load_vocabulary()
    high = vocabulary.settings[WALL].high
    assert high is not None
    for tools in (1, 2):
        ledger = apply_recipes(profile_of({WALL: (high * 2,) * tools}), [recipe], {}, {}, vocabulary)
        assert ledger.derived.values(WALL) == (high,) * tools
        assert [(row.status, row.cause.kind) for row in ledger.rows] == [
            ("kept", "rule"),
            ("changed", "plausible range"),
        ]
        assert [(row.base, row.derived) for row in ledger.rows] == [((high * 2,) * tools, (high,) * tools)] * 2


def test_a_rule_that_moves_the_value_is_reason_enough(read_recipe: Callable[..., Any]) -> None:
    """Also where a limit holds it back, and a second rule beside it is met."""
    lines = (f'setting = "{WALL}"\nscale = "200 %"', f'setting = "{WALL}"\nraise_to = "1 mm/s"')
    for order in (lines, lines[::-1]):
        recipe, _ = read_recipe("".join(f"[[rule]]\n{line}\n" for line in order))
        ledger = apply_recipes(profile_of({WALL: (F(800),)}), [recipe], {}, {}, load_vocabulary())
        assert ledger.derived.values(WALL) == (1000,)
        assert sorted((row.status, row.cause.kind) for row in ledger.rows) == [("changed", "rule"), ("kept", "rule")]


@pytest.mark.parametrize(
    ("held", "spread", "codes"),
    [
        (True, True, ["share moved", "spread"]),
        (True, False, ["share moved"]),
        (False, True, ["share moved"]),  # it was to follow anyway: that its references differ is no reason
        (False, False, ["share moved"]),
    ],
)
def test_why_a_share_that_was_to_be_held_followed(held: bool, spread: bool, codes: list[str]) -> None:
    entry = Entry(FIRST, (F(20),), Origin("", 0, "", ""), relative_to=WALL, shares=(F(1, 2),), held=held)
    rows = SettingRows(load_vocabulary().settings[FIRST], entry, ())
    rows.follows(entry, (F(30),), spread)
    ((_, row),) = rows.rows
    assert (row.status, row.base, row.derived, row.cause.subject) == ("follows", (20,), (30,), WALL)
    assert [note.code for note in row.notes] == codes


@pytest.mark.parametrize("tool", [None, 1, 2])
def test_a_question_of_the_tool_that_carries_the_spool_is_asked_once(
    tool: int | None, read_recipe: Callable[..., Any]
) -> None:
    """A rule on the second tool alone is not passed over in silence because the first one has nothing to ask."""
    recipe, _ = read_recipe(f'[[rule]]\nsetting = "{WALL}"\ncap = {{ fact = "spool.maximum_printing_speed" }}\n')
    facts = {} if tool is None else {TOOL: Fact(F(tool), Place())}
    ledger = apply_recipes(profile_of({WALL: (F(40), F(50))}), [recipe], facts, {}, load_vocabulary())
    assert [(row.setting, row.status) for row in ledger.rows] == [(WALL, "unanswered")]
