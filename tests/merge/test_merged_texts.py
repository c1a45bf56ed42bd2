"""One text of two sorts of edits: whole lines as a hand wrote them, and values spelled anew."""

from __future__ import annotations

import pytest

from profilesmith.merge.merged_texts import _together
from profilesmith.merge.raw_lines import RawMerge
from profilesmith.text.document import Edit

WHOLE = Edit(10, 20, "210/65/8")


@pytest.mark.parametrize(
    ("piece", "is_inside"),
    [
        (Edit(10, 20, "x"), True),
        (Edit(12, 15, "x"), True),
        (Edit(10, 12, "x"), True),
        (Edit(18, 20, "x"), True),
        (Edit(2, 9, "x"), False),
        (Edit(20, 25, "x"), False),
        (Edit(30, 31, "x"), False),
    ],
)
def test_a_piece_of_a_value_that_is_put_in_whole_is_not_written_a_second_time(piece: Edit, is_inside: bool) -> None:
    """Written twice, the edits would overlap; dropped elsewhere, a hand's spelling would be lost."""
    raw = RawMerge((WHOLE, Edit(40, 50, "")), ())
    assert _together(raw, [piece]) == [*raw.edits, *([] if is_inside else [piece])]
