"""The laws of a three-way merge, for one thing."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from profilesmith.merge.held import HeldValue, same
from profilesmith.merge.three_way import alike, meet, meet_all

FEW = st.integers(0, 3)
TOOLS = st.lists(FEW, min_size=0, max_size=3).map(tuple)
SWAPPED = {"mine": "theirs", "theirs": "mine"}


def equal(one: object, other: object) -> bool:
    return one == other


@given(FEW, FEW, FEW)
def test_swapping_the_sides_swaps_only_who_moved(old: int, mine: int, theirs: int) -> None:
    found, swapped = meet(old, mine, theirs, equal), meet(old, theirs, mine, equal)
    assert swapped == SWAPPED.get(found, found)


@given(FEW, FEW, FEW)
def test_a_conflict_is_two_different_moves_and_nothing_else(old: int, mine: int, theirs: int) -> None:
    assert (meet(old, mine, theirs, equal) == "conflict") == (len({old, mine, theirs}) == 3)


@given(FEW, FEW)
def test_who_did_nothing_changes_nothing(old: int, other: int) -> None:
    assert meet(old, old, other, equal) == ("untouched" if other == old else "theirs")
    assert meet(old, other, old, equal) == ("untouched" if other == old else "mine")
    assert meet(old, other, other, equal) == ("untouched" if other == old else "agreed")


@given(TOOLS, TOOLS, TOOLS)
def test_tools_are_judged_one_by_one_or_all_together(
    old: tuple[int, ...], mine: tuple[int, ...], theirs: tuple[int, ...]
) -> None:
    found = meet_all(old, mine, theirs, equal)
    if len(old) == len(mine) == len(theirs):
        assert found == [meet(*three, equal) for three in zip(old, mine, theirs, strict=True)]
    else:
        assert len(found) == 1
        swapped = meet_all(old, theirs, mine, equal)[0]
        assert swapped == SWAPPED.get(found[0], found[0])


def test_one_value_for_all_tools_says_the_same_as_equal_ones() -> None:
    assert alike((1,), (1, 1, 1), equal)
    assert not alike((1,), (1, 2), equal)
    assert not alike((), (1,), equal)
    assert alike((), (), equal)


def test_a_share_is_compared_as_a_share_of_the_same_thing() -> None:
    forty = HeldValue(Fraction(16), Fraction(2, 5), "outer_wall.speed")
    assert same(forty, forty._replace(value=Fraction(18)))
    assert not same(forty, forty._replace(share=Fraction(1, 2)))
    assert same(forty, HeldValue(Fraction(16)))
    assert not same(forty, HeldValue(Fraction(18)))


def test_values_mean_the_same_whatever_the_ledger_could_hold() -> None:
    assert same(HeldValue(Fraction(1, 3)), HeldValue(Fraction(float(Fraction(1, 3)))))
    assert not same(HeldValue(True), HeldValue("on"))
    assert not same(HeldValue("grid"), HeldValue("gyroid"))
