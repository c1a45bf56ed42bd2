"""A value that is written as a share of another setting: when its text has to change, and what it comes to."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest

from profilesmith.profile.profile import Entry, Grid, Origin, profile_of
from profilesmith.recipe.share import Share, is_spread, share_of

F = Fraction
WALL, FIRST = "outer_wall.speed", "first_layer.speed"
NOWHERE = Origin("", 0, "", "")


def entry(*shares: Fraction | None, held: bool = True) -> Entry:
    return Entry("first_layer.speed", (F(30),) * len(shares), NOWHERE, relative_to=WALL, shares=shares, held=held)


@pytest.mark.parametrize(
    ("before", "after", "values", "spread"),
    [
        ((40,), (60,), 1, False),
        ((40, 40), (60, 60), 1, False),
        ((40, 60), (40, 60), 1, True),  # two tools that differ are enough: half of 40 and of 60 is no single value
        ((40, 40), (40, 60), 1, True),  # also where only the derived text parts them
        ((40, 60), (50, 50), 1, True),
        ((40, 60), (40, 60), 2, False),  # each tool has a share of its own
    ],
)
def test_one_share_over_tools_that_differ_is_never_rewritten(
    before: tuple[int, ...], after: tuple[int, ...], values: int, spread: bool
) -> None:
    base, derived = (profile_of({WALL: tuple(map(F, side))}) for side in (before, after))
    half = entry(*[F(1, 2)] * values)
    assert is_spread(half, base, derived) is spread
    share = share_of(half, 0, base, derived)
    assert share is not None
    assert (share.before, share.after, share.held) == (before[0], after[0], not spread)


def test_each_tool_has_its_own_share_and_reference() -> None:
    base, derived = profile_of({WALL: (F(40), F(60))}), profile_of({WALL: (F(20), F(50))})
    mixed = entry(F(1, 2), None)
    assert share_of(mixed, 0, base, derived) == Share(F(1, 2), F(40), F(20), True)
    assert share_of(mixed, 1, base, derived) is None  # it stands for itself
    assert share_of(entry(F(1, 2), F(1, 3)), 1, base, derived) == Share(F(1, 3), F(60), F(50), True)
    plain = Entry("first_layer.speed", (F(30),), NOWHERE)
    assert share_of(plain, 0, base, derived) is None


@pytest.mark.parametrize(
    ("share", "rewritten", "unchanged"),
    [
        (Share(F(1, 2), F(40), F(60), True), True, 30),
        (Share(F(1, 2), F(40), F(60), False), False, 30),  # it follows
        (Share(F(1, 2), F(40), F(40), True), False, 20),  # its reference stays
        (Share(F(1, 2), F(40), None, True), False, None),  # a share of what nobody knows is left alone
    ],
)
def test_a_text_changes_only_where_its_value_would_move(share: Share, rewritten: bool, unchanged: int | None) -> None:
    assert (share.rewritten, share.unchanged) == (rewritten, unchanged)


def test_the_grid_of_a_share_is_the_references() -> None:
    per_cent = Grid(F(1, 100), F(1, 200))
    assert Share(F(1, 2), F(40), F(60), True).grid(per_cent) == Grid(F(6, 10), F(3, 10))
    for after in (None, F(0)):  # of nothing there is no grid: any number can be held
        assert Share(F(1, 2), F(40), after, True).grid(per_cent) == Grid()


def said(made: Any, setting: str) -> list[tuple[str, str, Any, list[str]]]:
    rows = [row for row in made.ledger.rows if row.setting == setting]
    return [(row.status, row.cause.kind, row.derived[0], [note.code for note in row.notes]) for row in rows]


def test_where_no_whole_share_comes_to_it_the_number_that_is_asked_is_left_to_the_person(
    derived: Callable[..., Any], bind: Callable[..., str], rule: Callable[..., str]
) -> None:
    """A maker types in what the rule allows, not what stood there before."""
    lines = bind(WALL, "a") + bind(FIRST, "b", f'relative_to = "{WALL}"\nunit = "0-255"')
    ask = rule(WALL, 'cap = "40 mm/s"') + rule(FIRST, 'window = ["14.99 mm/s", "15.01 mm/s"]')
    made = derived("a = 100\nb = 51\n", lines, ask)  # 51 of 255 is 20 %
    assert said(made, FIRST) == [
        ("by hand", "rule", Fraction("15.01"), ["no whole share"]),
        ("follows", "share", 8, ["share moved"]),
    ]
    assert made.outputs[0].decode() == "a = 40\nb = 51\n"


def test_a_share_of_nothing_is_left_to_the_person(
    derived: Callable[..., Any], bind: Callable[..., str], rule: Callable[..., str]
) -> None:
    lines = bind("fan.power", "a") + bind("bridge.fan", "b", 'relative_to = "fan.power"')
    made = derived("a = 80\nb = 50%\n", lines, rule("fan.power", 'set = "0 %"'))
    assert said(made, "bridge.fan") == [
        ("by hand", "stuck share", 40, ["share of zero"]),
        ("follows", "share", 0, ["share moved"]),
    ]
    both = rule("fan.power", 'set = "0 %"') + rule("bridge.fan", 'cap = "10 %"')
    made = derived("a = 80\nb = 50%\n", lines, both)
    assert said(made, "bridge.fan") == [
        ("by hand", "rule", 10, ["share of zero"]),
        ("follows", "share", 0, ["share moved"]),
    ]
