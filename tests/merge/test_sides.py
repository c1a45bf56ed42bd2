"""What a derived text held when it was made, told from a ledger that keeps no copy of it."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from profilesmith.merge.sides import _put_back, _share
from profilesmith.profile.profile import NOWHERE, Entry
from profilesmith.translation.document_to_profile import Translation

F = Fraction
WALL, INNER = "outer_wall.speed", "inner_wall.speed"
Bind = Callable[..., str]


def entry(setting: str, *values: Fraction | bool, share: Fraction | None = None) -> Entry:
    of = (WALL, (share,) * len(values)) if share is not None else ("", ())
    return Entry(setting, values, NOWHERE, relative_to=of[0], shares=of[1])


@pytest.mark.parametrize(
    ("now", "then", "whole", "share"),
    [
        (F(60, 100), F(40), F(40), F(1)),  # a hand wrote 60 % where the ledger has 40 of 40 mm/s
        (F(1, 2), F(10), F(40), F(1, 4)),
        (F(1, 2), F(20), F(40), F(1, 2)),  # what followed its reference was not edited
        (F(1, 2), F(10), None, F(1, 2)),  # of what it is a share the ledger does not say: as it stands
        (F(1, 2), F(10), F(0), F(1, 2)),
    ],
)
def test_a_share_that_a_hand_edited_is_put_back_as_the_share_that_it_was(
    now: Fraction, then: Fraction, whole: Fraction | None, share: Fraction
) -> None:
    """Without that the edit would be taken for what the recipes made, and be lost in the next derivation."""
    ledger = {INNER: entry(INNER, then)} | ({} if whole is None else {WALL: entry(WALL, whole)})
    back = _put_back(entry(INNER, F(7), share=now), ledger)
    assert (back.values, back.shares) == ((then,), (share,))


def test_a_share_of_what_is_no_number_stays() -> None:
    assert _share(True, entry(WALL, F(40)), F(1, 2)) == F(1, 2)
    assert _share(F(10), entry(WALL, True), F(1, 2)) == F(1, 2)
    assert _share(F(10), entry(WALL, F(40)), None) is None


def test_what_nobody_edited_stays_as_it_stands(read_text: Callable[..., Translation], bind: Bind) -> None:
    (mine,) = read_text(bind(WALL, "rim"), "rim = 40\n").profile.entries.values()
    assert _put_back(mine, {}) is mine
    assert _put_back(mine, {WALL: entry(WALL, F(40), F(40))}) is mine  # another number of tools: not told by values
    assert _put_back(mine, {WALL: entry(WALL, F(40))}) is mine
    assert _put_back(mine, {WALL: entry(WALL, F(30))}).values == (30,)
