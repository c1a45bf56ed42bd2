"""Which rules a hand edit breaks: a rule that the new value meets must not be called broken, nor one be passed over."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest

from profilesmith.ledger import Decision
from profilesmith.merge.overruled import broken_rules, with_overruled
from profilesmith.profile.profile import NOWHERE, Entry, Grid, profile_of
from profilesmith.recipe.apply_recipes import apply_recipes
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

F = Fraction
WALL, INNER, TOP, HEIGHT = "outer_wall.speed", "inner_wall.speed", "top.layers", "layer.height"


def read(read_recipe: Callable[..., Any], *lines: str) -> Any:
    recipe, problems = read_recipe("".join(f"[[rule]]\n{line}\n" for line in lines))
    assert problems == []
    return recipe


@pytest.mark.parametrize(
    ("line", "edit", "broken"),
    [
        ('cap = "40 mm/s"', 50, True),
        ('cap = "40 mm/s"', 40, False),
        ('cap = "40 mm/s"', 30, False),
        ('raise_to = "20 mm/s"', 10, True),
        ('set = "40 mm/s"', 30, True),
        ('aim = "40 mm/s"', 30, True),
        ('cap = "40 mm/s"\nwhen = { "machine.drive" = "remote" }', 50, False),  # nobody said which it is
    ],
)
def test_a_rule_that_would_move_the_edit_is_broken(
    line: str, edit: int, broken: bool, read_recipe: Callable[..., Any]
) -> None:
    recipe = read(read_recipe, f'setting = ["{WALL}", "infill.speed"]\n{line}')
    base = profile_of({WALL: (F(60),), "infill.speed": (F(90),)})
    ledger = apply_recipes(base, [recipe], {}, {}, load_vocabulary())
    edited = profile_of({WALL: (F(edit),), "infill.speed": (F(90),)})
    rules = broken_rules([WALL], ledger, edited, [recipe], {}, {}, load_vocabulary())
    assert rules == (frozenset({(WALL, "test", 1)}) if broken else frozenset())


def test_an_aim_that_a_bound_holds_back_is_not_broken_by_what_it_came_to(read_recipe: Callable[..., Any]) -> None:
    """Else a derivation's own text, where no hand was, would be said to break its recipe."""
    recipe = read(
        read_recipe, f'setting = "{WALL}"\ncap = "40 mm/s"\naim = "60 mm/s"', f'setting = "{WALL}"\naim = "50 mm/s"'
    )
    ledger = apply_recipes(profile_of({WALL: (F(30),)}), [recipe], {}, {}, load_vocabulary())
    assert ledger.derived.values(WALL) == (40,)
    at_its_bound, below = (
        broken_rules([WALL], ledger, profile_of({WALL: (F(speed),)}), [recipe], {}, {}, load_vocabulary())
        for speed in (40, 35)
    )
    assert at_its_bound == frozenset()
    assert (WALL, "test", 2) in below


def test_a_share_is_asked_for_no_number_that_it_cannot_say(read_recipe: Callable[..., Any]) -> None:
    """Whole per cents of 60 mm/s: 68.4 is the nearest to 68.6, and no hand's doing; 69 would be one."""
    recipe = read(read_recipe, f'setting = "{INNER}"\naim = "68.6 mm/s"')
    wall = profile_of({WALL: (F(60),)})

    def broken(share: F) -> object:
        entry = Entry(INNER, (60 * share,), NOWHERE, (Grid(F("0.01")),), WALL, (share,))
        profile = wall._replace(entries={**wall.entries, INNER: entry})
        ledger = apply_recipes(profile, [recipe], {}, {}, load_vocabulary())
        return broken_rules([INNER], ledger, profile, [recipe], {}, {}, load_vocabulary())

    assert broken(F("1.14")) == frozenset()
    assert broken(F("1.15")) == {(INNER, "test", 1)}


@pytest.mark.parametrize(("layers", "broken"), [(5, True), (8, False), (9, False)])
def test_a_product_that_was_held_is_held_against_what_it_came_to(
    layers: int, broken: bool, read_recipe: Callable[..., Any]
) -> None:
    """The edit alone cannot tell how thick the top once was."""
    recipe = read(read_recipe, f'setting = "{HEIGHT}"\ncap = "0.1 mm"', f'setting = "{TOP}"\nhold = "thickness"')
    ledger = apply_recipes(profile_of({HEIGHT: (F("0.2"),), TOP: (F(4),)}), [recipe], {}, {}, load_vocabulary())
    assert ledger.derived.values(TOP) == (8,)
    edited = profile_of({HEIGHT: (F("0.1"),), TOP: (F(layers),)})
    rules = broken_rules([TOP], ledger, edited, [recipe], {}, {}, load_vocabulary())
    assert rules == (frozenset({(TOP, "test", 2)}) if broken else frozenset())


def decision(outcome: str = "kept", chosen: str = "derived", kind: str = "setting", what: str = WALL) -> Decision:
    return Decision(what, kind, outcome, was="1", hand="2", new="3", chosen=chosen)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("line", "asked", "overrules"),
    [
        ('cap = "40 mm/s"', decision(), "test 1.0.0, rule 1: at most 40 mm/s"),
        ('cap = "60 mm/s"', decision(), ""),
        ('cap = "40 mm/s"', decision("conflict"), "test 1.0.0, rule 1: at most 40 mm/s"),
        ('cap = "40 mm/s"', decision("conflict", "base"), ""),  # the rule's own value stands
        ('cap = "40 mm/s"', decision("agreed"), ""),
        ('cap = "40 mm/s"', decision("left out"), ""),
        ('cap = "40 mm/s"', decision(kind="key"), ""),
        ('cap = "40 mm/s"', decision(what="infill.speed"), ""),
        ('scale = "70 %"', decision(), ""),  # done once: it says nothing of what came after
        ('shift = "-5 mm/s"', decision(), ""),  # so is this
        ('scale = "70 %"\n[[rule]]\nsetting = "outer_wall.speed"\ncap = "40 mm/s"', decision(),
         "test 1.0.0, rule 2: at most 40 mm/s"),
    ],
)  # fmt: skip
def test_a_kept_edit_says_which_rule_it_overrules(
    line: str, asked: Decision, overrules: str, read_recipe: Callable[..., Any]
) -> None:
    recipe = read(read_recipe, f'setting = "{WALL}"\n{line}')
    profile = profile_of({WALL: (F(60),), "infill.speed": (F(20),)})
    (said,) = with_overruled([asked], profile, [recipe], {}, {}, load_vocabulary())
    assert said == asked._replace(overrules=overrules)
