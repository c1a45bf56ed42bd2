"""Which lines of a value differ: where, what stood there, what stands there now."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilesmith.text.changed_lines import changed_lines

TEXTS = st.lists(st.sampled_from(["G28", "M83", "G4 S2", ""]), min_size=1, max_size=6).map("\n".join)


@pytest.mark.parametrize(
    ("was", "now", "changed"),
    [
        ("red", "blue", [(0, "red", "blue")]),
        ("G28\n  M221 S98\nM83", "G28\n  M221 S95\nM83", [(1, "M221 S98", "M221 S95")]),
        ("G28\r\nM83", "G28\r\nG4 S2\r\nM83", [(1, "", "G4 S2")]),
        ("G28\nM83", "G28", [(0, "M83", "")]),
        ("G28\n M83", "G28\n  M83", [(1, " M83", "  M83")]),
        ("a\nb\nc\nd", "x\nb\nc\ny", [(0, "a", "x"), (3, "d", "y")]),
    ],
)
def test_the_lines_that_differ(was: str, now: str, changed: list[tuple[int, str, str]]) -> None:
    assert changed_lines(was, now) == changed


@given(TEXTS, TEXTS)
def test_none_is_named_where_nothing_differs_and_each_names_a_line_of_the_new_text(was: str, now: str) -> None:
    changed = changed_lines(was, now)
    assert (changed == []) == (was == now)
    assert all(line.was != line.now or not line.now for line in changed)
    assert all(0 <= line.below < len(now.split("\n")) for line in changed)
