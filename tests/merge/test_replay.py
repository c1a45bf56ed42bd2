"""Hand edits onto a new ledger: what a maker changed stands there, as near as the text can say it, and is told."""

from __future__ import annotations

from fractions import Fraction

import pytest

from profilesmith.ledger import Cause, Decision, Ledger, Note, Row
from profilesmith.merge.held import HeldValue, Holding
from profilesmith.merge.replay import followed, pinned_entry, replay, settled_ledger
from profilesmith.merge.settings import SettingMerge
from profilesmith.profile.profile import NOWHERE, Entry, Grid, Profile

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
    shared = followed({FIRST: both, WALL: Entry(WALL, (F(10),), NOWHERE)}, [FIRST])[FIRST]
    assert (shared.values, shared.shares) == ((1, 2), (F(1, 10), F(1, 5)))
    assert followed({FIRST: both})[FIRST].values == (1, 2)  # what it is of is not there


def profile(**values: int) -> Profile:
    entries = {
        name: Entry(name, (F(value),), NOWHERE, grids=(Grid(),))
        for name, value in ((word.replace("__", "."), number) for word, number in values.items())
    }
    return Profile(entries=entries, addable={}, absent={})


def merged(setting: str, holding: Holding | None, by_text: bool = False) -> SettingMerge:
    return SettingMerge(setting, Decision(setting, "setting", "kept", was="then", hand="mine"), holding, by_text)


def test_only_what_is_carried_by_value_is_put_in_and_each_row_says_what_it_did_to_its_key() -> None:
    """An edit that gave way to the new base, or whose whole line is carried, must not be put in here as well."""
    base = profile(outer_wall__speed=60, layer__height=1, infill__density=20, travel__speed=90)
    derived = profile(outer_wall__speed=40, layer__height=1, infill__density=20, travel__speed=90, raft__gap=2)
    ruled = Row(WALL, "changed", Cause("rule", recipe="slow", rule=1), (F(60),), (F(40),))
    ledger = Ledger(base=base, derived=derived, rows=(ruled,), recipes=())
    merges = [
        merged(WALL, hand(F(60))),  # back to what the base has
        merged("layer.height", hand(F(2))),
        merged("raft.gap", hand(F(3))),
        merged("infill.density", None),
        merged("travel.speed", hand(F(95)), by_text=True),
    ]
    after = replay(ledger, merges, frozenset({(WALL, "slow", 1)}))
    values = {name: entry.value for name, entry in after.derived.entries.items()}
    assert values == {WALL: 60, "layer.height": 2, "infill.density": 20, "travel.speed": 90, "raft.gap": 3}
    assert [(row.setting, row.status, row.cause.kind, row.base, row.derived) for row in after.rows] == [
        (WALL, "overruled", "rule", (60,), (60,)),
        (WALL, "kept", "hand edit", (60,), (60,)),
        ("layer.height", "changed", "hand edit", (1,), (2,)),
        ("raft.gap", "added", "hand edit", (), (3,)),
    ]
    assert replay(ledger, merges[3:], frozenset()) is ledger


@pytest.mark.parametrize(
    ("status", "is_met", "notes"),
    [
        ("overruled", True, ["hand met"]),
        ("overruled", False, ["hand kept", "later aim"]),
        ("changed", True, ["hand met", "later aim"]),
    ],
)
def test_what_overruled_a_rule_is_told_as_long_as_it_does(status: str, is_met: bool, notes: list[str]) -> None:
    row = Row(
        WALL, status, Cause("rule", recipe="slow", rule=1), (F(60),), (F(40),), notes=(Note("later aim", ("x",)),)
    )
    ledger = Ledger(profile(outer_wall__speed=60), profile(outer_wall__speed=40), (row,), ())
    broken = frozenset() if is_met else frozenset({(WALL, "slow", 1)})
    after = replay(ledger, [merged(WALL, hand(F(30)))], broken)
    assert [note.code for note in after.rows[0].notes] == notes


def test_a_line_that_was_carried_whole_gets_its_row_where_the_text_is_read_again() -> None:
    base, result = profile(layer__height=1, raft__gap=2), profile(layer__height=1, raft__gap=3, brim__width=4)
    ledger = Ledger(base=base, derived=result, rows=(), recipes=())
    names = ("layer.height", "raft.gap", "brim.width")
    after = settled_ledger(ledger, result, [merged(name, hand(F(1)), by_text=True) for name in names], ())
    assert [(row.setting, row.status) for row in after.rows] == [*zip(names, ("kept", "changed", "added"), strict=True)]


@pytest.mark.parametrize(("status", "rows"), [("follows", 1), ("kept", 2)])
def test_what_follows_an_edit_is_told_once(status: str, rows: int) -> None:
    """Where its own row does not say already that it follows, the edit is named as what moved it."""
    share = Entry(FIRST, (F(20),), NOWHERE, relative_to=WALL, shares=(F(1, 2),), grids=(Grid(),))
    base = Profile(entries={**profile(outer_wall__speed=40).entries, FIRST: share}, addable={}, absent={})
    own = Row(FIRST, status, Cause("rule", recipe="slow", rule=2), (F(20),), (F(20),))  # type: ignore[arg-type]
    after = replay(Ledger(base, base, (own,), ()), [merged(WALL, hand(F(60)))], frozenset())
    assert after.derived.entries[FIRST].value == 30
    mine = [row for row in after.rows if row.setting == FIRST]
    assert len(mine) == rows
    assert [row.cause.kind for row in mine[1:]] == ["share of hand edit"] * (rows - 1)
