"""Documents as whole lines, and which lines of two are the same."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from profilesmith.merge.text_lines import align, text_lines
from profilesmith.text.read_document import read_document

LINES = st.sampled_from(
    ("a = 1", "a = 2", "b = 1", "  b = 2", "# note", "", "[part]", "[other]", "c = 1 \\", "   goes on", "stray")
)
TEXTS = st.tuples(st.lists(LINES, max_size=12), st.sampled_from(("\n", "\r\n", "\r")), st.booleans()).map(
    lambda parts: parts[1].join(parts[0]) + (parts[1] if parts[2] else "")
)


@given(st.one_of(TEXTS, st.text(max_size=60)))
def test_the_lines_are_the_whole_text(text: str) -> None:
    document = read_document(text.encode("utf-8", "surrogatepass"))
    lines = text_lines(document)
    assert "".join(document.text[line.start : line.stop] for line in lines) == document.text
    for line, item in zip((line for line in lines if line.kind == "key"), document.assignments, strict=True):
        assert (line.section, line.name, line.value_start, line.value_end) == (
            item.section,
            item.key,
            item.start,
            item.end,
        )
        assert line.start <= line.value_start <= line.value_end <= line.end <= line.stop


@given(TEXTS, TEXTS)
def test_only_equal_lines_are_paired_and_each_once(one: str, other: str) -> None:
    mine, theirs = (text_lines(read_document(text.encode())) for text in (one, other))
    found = align(mine, theirs)
    assert len(set(found.pairs.values())) == len(found.pairs)
    assert all(mine[at].token == theirs[to].token for at, to in found.pairs.items())
    straight = [to for at, to in sorted(found.pairs.items()) if at not in found.moved]
    assert straight == sorted(straight)


@given(TEXTS)
def test_a_text_is_itself(text: str) -> None:
    lines = text_lines(read_document(text.encode()))
    found = align(lines, lines)
    assert found.pairs == {at: at for at in range(len(lines))}
    assert not found.moved


def test_a_key_that_moved_is_found() -> None:
    mine, theirs = (text_lines(read_document(text)) for text in (b"a = 1\nb = 2\nc = 3\n", b"b = 2\nc = 3\na = 1\n"))
    found = align(mine, theirs)
    assert found.pairs == {0: 2, 1: 0, 2: 1}
    assert found.moved == {0}


def test_of_two_lines_of_one_key_each_has_its_own_partner() -> None:
    """From the end, too, lines are held against the line at the same distance: no other one of that name."""
    mine, theirs = (text_lines(read_document(text)) for text in (b"a = 1\nb = 2\nc = 3\n", b"a = 1\na = 2\nc = 3\n"))
    assert align(mine, theirs).pairs == {0: 0, 2: 2}
