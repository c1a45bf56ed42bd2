"""Hand edits onto a new ledger: what a maker changed stands there, as near as the text can say it, and is told."""

from __future__ import annotations

from fractions import Fraction

import pytest

from profilesmith.merge.held import HeldValue, Holding
from profilesmith.merge.replay import followed, pinned_entry
from profilesmith.profile.profile import NOWHERE, Entry, Grid

F = Fraction
WALL, FIRST, SKIN = "outer_wall.speed", "first_layer.speed", "inner_wall.speed"


def hand(*values: Fraction | bool, share: Fraction | None = None) -> Holding:
    return tuple(HeldValue(value, share, WALL if share else "") for value in values)


@pytest.mark.parametrize(
    ("grid", "value", "held"),
    [
        (Grid(), F("33.3333333333"), F("33.3333333333")),  # any number can be held
        (Grid(F(1)), F("33.5"), F("33.5")),  # a text may be given six more decimals
        (Grid(F(1)), F("33.1234567"), F("33.123457")),
        (Grid(F(1, 100)), F("0.123456789"), F("0.12345679")),
        (Grid(F(1), whole=True), F("33.4"), F(33)),  # a count, a duty byte
        (Grid(F(1), whole=True), F("33.5"), F(34)),
        (Grid(F(1), F(1, 2)), F("33.5"), F("33.5")),
    ],
)
def test_as_near_as_the_text_can_say_it(grid: Grid, value: Fraction, held: Fraction) -> None:
    entry = Entry(WALL, (F(60), F(60)), NOWHERE, grids=(grid, grid))
    assert pinned_entry(entry, hand(value, value)).values == (held, held)
    share = Entry(FIRST, (F(30),), NOWHERE, grids=(grid,), relative_to=WALL, shares=(F(1, 2),))
    pinned = pinned_entry(share, hand(F(20), share=value))
    assert (pinned.values, pinned.shares) == ((20,), (held,))


def test_a_switch_is_what_the_hand_said() -> None:
    entry = Entry("raft.on", (False,), NOWHERE, grids=(Grid(),))
    assert pinned_entry(entry, hand(True)).values == (True,)
    bare = Entry("raft.on", (False,), NOWHERE)
    assert pinned_entry(bare, hand(True)).values == (True,)


def entries(**more: Entry) -> dict[str, Entry]:
    share = {"relative_to": WALL, "shares": (F(1, 2),), "grids": (Grid(F(1, 100)),)}
    return {
        SKIN: Entry(SKIN, (F(5),), NOWHERE, relative_to=FIRST, shares=(F(1, 4),), grids=(Grid(F(1, 100)),)),
        FIRST: Entry(FIRST, (F(20),), NOWHERE, **share),  # type: ignore[arg-type]
        WALL: Entry(WALL, (F(60),), NOWHERE, grids=(Grid(),)),
        **more,
    }


def test_shares_are_worked_out_again_in_any_order() -> None:
    after = followed(entries())
    assert [*after] == [SKIN, FIRST, WALL]
    assert [entry.values for entry in after.values()] == [(F(15, 2),), (30,), (60,)]
    assert after[FIRST].shares == (F(1, 2),)


def test_a_hand_s_value_is_kept_by_its_share_where_that_is_what_it_is_for() -> None:
    for held, pinned, share, value in (
        (True, [FIRST], F(1, 3), 20),
        (True, [], F(1, 2), 30),
        (False, [FIRST], F(1, 2), 30),
    ):
        first = entries()[FIRST]._replace(held=held, grids=(Grid(),))
        after = followed(entries(**{FIRST: first}), pinned)
        assert (after[FIRST].shares, after[FIRST].values) == ((share,), (value,))
    nothing = entries(**{FIRST: entries()[FIRST]._replace(held=True), WALL: entries()[WALL]._replace(values=(F(0),))})
    assert followed(nothing, [FIRST])[FIRST].shares == (F(1, 2),)  # of nothing there is no other share


def test_each_tool_has_its_own_reference_and_one_reference_serves_all() -> None:
    two = Entry(FIRST, (F(1), F(2)), NOWHERE, relative_to=WALL, shares=(F(1, 2), None), grids=(Grid(), Grid()))
    for walls, values in (((F(60), F(40)), (30, 2)), ((F(60),), (30, 2))):
        after = followed({FIRST: two, WALL: Entry(WALL, walls, NOWHERE)})
        assert after[FIRST].values == values
    both = two._replace(shares=(F(1, 2), F(1, 4)), held=True)
    assert followed({FIRST: both, WALL: Entry(WALL, (F(60), F(40)), NOWHERE)})[FIRST].values == (30, 10)
    assert followed({FIRST: both, WALL: Entry(WALL, (F(60),), NOWHERE)})[FIRST].values == (30, 15)
    kept = followed({FIRST: both, WALL: Entry(WALL, (F(10), F(40)), NOWHERE)}, [FIRST])[FIRST]
    assert (kept.values, kept.shares) == ((1, 2), (F(1, 10), F(1, 20)))
    assert followed({FIRST: both})[FIRST].values == (1, 2)  # what it is of is not there
