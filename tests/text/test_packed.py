"""A reading stays near the size of its text, and looks like tuples of items all the same."""

import pickle
import sys
import tracemalloc

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from profilesmith.text.document import Assignment, Habits, Heading, Unread
from profilesmith.text.packed import KEPT, Packed
from profilesmith.text.read_document import read_document

SHAPES = {
    "shortest lines": b"k=\n",
    "short lines": b"k1=1\n",
    "indented": b" k1=1\n",
    "sections": b"[a]\nk=\n",
    "values that go on": b"k=\n x\n",
    "unread": b"a\n",
    "blank": b"\n",
    "carriage returns": b"k=1\r",
    "other delimiter": b"k=1\nab : c\n",
}
TEXTS = st.lists(
    st.sampled_from(("[a]", "[b]", "k = 1", "  more", "q: 2", "", "# r", "loose", "w = x \\", "k = 2 ; r", "ö = ü")),
    max_size=30,
).map("\n".join)


@pytest.mark.parametrize("line", SHAPES.values(), ids=SHAPES.keys())
def test_what_is_kept_of_a_text_is_near_its_size(line: bytes) -> None:
    raw = line * (60_000 // len(line))
    document = read_document(raw, "f", Habits(delimiter="="))
    packed = (document.assignments, document.headings, document.unread)
    arrays = [*(items.numbers for items in packed if isinstance(items, Packed))]
    arrays += [document.first_ends.starts, document.first_ends.ends]
    assert len(arrays) == 5
    assert sum(map(sys.getsizeof, arrays)) + sys.getsizeof(document.text) <= 11 * len(raw)


@pytest.mark.parametrize("line", [SHAPES["shortest lines"], SHAPES["values that go on"]])
def test_reading_takes_at_most_twelve_times_the_text(line: bytes) -> None:
    """At its peak. All shapes, and peaks of whole commands: ``python -m tests.benchmarks.memory``."""
    raw = line * (200_000 // len(line))
    tracemalloc.start()
    try:
        document = read_document(raw, "f", Habits(delimiter="="))
        peak = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()
    assert len(document.assignments) == len(raw) // len(line)
    assert peak <= 12 * len(raw)


@given(TEXTS)
@example("[a]\n[b]\nk = 1\n[c]")
def test_items_are_those_of_plain_tuples(text: str) -> None:
    document = read_document(text.encode(), "f")
    for items, kind in (
        (document.assignments, Assignment),
        (document.headings, Heading),
        (document.unread, Unread),
    ):
        one_by_one = [items[at] for at in range(len(items))]
        assert [*items] == one_by_one == [*items[:]]
        assert all(type(item) is kind for item in items)
        assert items == tuple(one_by_one)
        assert [items[-1]] == one_by_one[-1:] if items else not one_by_one
        assert pickle.loads(pickle.dumps(items)) == items


@given(TEXTS)
def test_the_section_is_that_of_the_last_heading_above(text: str) -> None:
    section, sections = "", {}
    for number, line in enumerate(text.split("\n"), 1):
        section = line[1:-1] if line in ("[a]", "[b]") else section
        sections[number] = section
    for item in read_document(text.encode(), "f").assignments:
        assert item.section == sections[item.line]


def test_a_long_text_is_read_in_pieces_as_a_short_one_is() -> None:
    """Pieces end anywhere: between the two signs of a line end, inside a value that goes on."""
    block = "k = 1\r\n  more\r\n[s]\r\nlong = " + "x" * 997 + " \\\r\n y\r\n"
    document = read_document((block * KEPT).encode(), "f")
    one = [
        (item.section, item.key, item.end - item.start) for item in read_document((block * 2).encode(), "f").assignments
    ]
    assert [(item.section, item.key, item.end - item.start) for item in document.assignments] == [
        *one[:2],
        *one[2:] * (KEPT - 1),
    ]
    last = document.assignments[-1]
    assert document.value(last).endswith("\r\n y")
    assert document.first_line(document.assignments[-2]) == "1"
