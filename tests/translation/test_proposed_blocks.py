"""Blocks of a map that wait behind "# " for a person: a review points at their line, so the line must be theirs."""

from __future__ import annotations

import pytest

from profilesmith.translation.text_table import proposed_blocks

BLOCK = '# [[binding]]\n# setting = "raft.on"\n# key = "FootKind"\n'


@pytest.mark.parametrize(
    ("text", "blocks"),
    [
        (BLOCK, {"raft.on": ("FootKind", 1)}),
        ("format = 1\n\n" + BLOCK, {"raft.on": ("FootKind", 3)}),
        (BLOCK.replace("# ", "#"), {"raft.on": ("FootKind", 1)}),
        ("# a word before it\n" + BLOCK, {"raft.on": ("FootKind", 2)}),
        (BLOCK.replace("# key", "# how sure: little\n# key"), {"raft.on": ("FootKind", 1)}),
        # what a line of the map parts is no block
        (BLOCK.replace("# key", "\n# key"), {}),
        (BLOCK.replace("# [[binding]]", "[[binding]]"), {}),
        (BLOCK.replace("# [[binding]]\n", ""), {}),
        (BLOCK.replace('# setting = "raft.on"\n', ""), {}),
        (BLOCK.replace("[[binding]]", "[[bindings]]"), {}),
        ('# [[binding]]\n# setting = "brim.on"\n' + BLOCK, {"raft.on": ("FootKind", 3)}),
        ('# setting = "brim.on"\n' + BLOCK.replace('# setting = "raft.on"\n', ""), {}),
        ('# [[binding]]\n# setting = "brim.on"\n' + BLOCK.replace('# setting = "raft.on"\n', ""), {}),
        # the first proposal of a setting counts, and a block has one key
        (BLOCK + BLOCK.replace("FootKind", "Other"), {"raft.on": ("FootKind", 1)}),
        (BLOCK + '# key = "Other"\n', {"raft.on": ("FootKind", 1)}),
        (BLOCK + '# setting = "brim.on"\n# key = "Other"\n', {"raft.on": ("FootKind", 1)}),
        (BLOCK + BLOCK.replace("raft.on", "brim.on"), {"raft.on": ("FootKind", 1), "brim.on": ("FootKind", 4)}),
        (BLOCK.replace("FootKind", 'Foot \\"Kind\\" \\\\'), {"raft.on": ('Foot "Kind" \\', 1)}),
        ("", {}),
    ],
)
def test_where_they_stand(text: str, blocks: dict[str, tuple[str, int]]) -> None:
    assert proposed_blocks(text.encode()) == blocks
    assert proposed_blocks(text.replace("\n", "\r\n").encode()) == blocks


def test_a_text_that_is_no_utf_8_is_looked_through_all_the_same() -> None:
    assert proposed_blocks(b"# \xff\n" + BLOCK.encode()) == {"raft.on": ("FootKind", 2)}
