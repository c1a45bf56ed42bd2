"""When two texts say the same of a setting: as values, as shares, and as they are written."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from profilesmith.merge.held import HeldValue, agreed, same, stayed

F = Fraction
WALL = "outer_wall.speed"
Judge = Callable[[HeldValue, HeldValue], bool]


def share(value: int, of: Fraction, keeps: bool = False, whole: str = WALL) -> HeldValue:
    return HeldValue(F(value), of, whole, keeps=keeps)


@pytest.mark.parametrize(
    ("one", "other", "right"),
    [
        (HeldValue(True, text="4"), HeldValue(True, text="3"), False),  # both read as on: only the hand knows which
        (HeldValue(True, text="4"), HeldValue(True, text="4"), True),
        (HeldValue(True, text="4"), HeldValue(True), True),  # not known how it was written
        (HeldValue(True), HeldValue(True, text="4"), True),
        (HeldValue("grid", text="1"), HeldValue("lines", text="1"), False),
        (HeldValue(True), HeldValue(F(1)), False),  # True == 1 in Python, and in no text
        (share(16, F(2, 5)), share(18, F(2, 5)), True),
        (share(16, F(2, 5)), share(16, F(1, 2)), False),
        (share(16, F(2, 5)), share(16, F(1, 2), whole="infill.speed"), True),  # of two things: the values count
        (share(16, F(2, 5)), share(18, F(2, 5), whole="infill.speed"), False),
        (share(16, F(2, 5)), HeldValue(F(16)), True),
    ],
)
def test_the_same(one: HeldValue, other: HeldValue, right: bool) -> None:
    assert same(one, other) is right
    assert same(other, one) is right


@pytest.mark.parametrize("judge", [stayed, agreed])
@pytest.mark.parametrize(
    ("keeps", "also", "value", "of", "right"),
    [
        (True, True, 16, F(1, 2), True),  # the value stays, that is what the share is for
        (True, False, 16, F(1, 2), False),
        (False, True, 16, F(1, 2), False),
        (False, False, 16, F(1, 2), False),
        (False, False, 18, F(2, 5), True),
        (True, True, 18, F(1, 2), False),
    ],
)
def test_shares_that_keep_their_values_are_compared_by_these(
    judge: Judge, keeps: bool, also: bool, value: int, of: Fraction, right: bool
) -> None:
    assert judge(share(16, F(2, 5), keeps), share(value, of, also)) is right


def test_a_new_base_with_the_same_share_says_what_the_old_one_did_while_two_hands_do_not_agree() -> None:
    one, other = share(16, F(2, 5), True), share(18, F(2, 5), True)
    assert stayed(one, other)
    assert not agreed(one, other)
