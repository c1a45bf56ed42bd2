"""Raw lines, case by case: what comes out, and what the person is told of each of their edits."""

from __future__ import annotations

import pytest

from profilesmith.merge.raw_kinds import BESIDE, CARRIED, MAPPED, MOVED, RAW, SPELLED
from profilesmith.merge.raw_lines import RawMerge, merge_raw
from profilesmith.text.edit_document import edit_text
from profilesmith.text.read_document import read_document

AB, SECTIONS = "a = 1\nb = 2\n", "[x]\na = 1\n[y]\nb = 2\n"
LONG = "x" * 90


def merge(old: str, mine: str, theirs: str, choose: str, kind: str = RAW) -> tuple[str, RawMerge]:
    sides = ((old, "old"), (mine, "mine"), (theirs, "theirs"))
    was, edited, new = (read_document(text.encode(), name) for text, name in sides)
    merged = merge_raw(was, edited, new, new, lambda section, key: kind, lambda decision: choose)
    return edit_text(new.text, merged.edits), merged


Told = tuple[str, str, str, str, str, str, int]
"""What, outcome, why; the text then, of the hand, of the new base; the hand's line, 0 for none."""


@pytest.mark.parametrize(
    ("old", "mine", "theirs", "text", "told"),
    [
        (AB, "a = 5\nb = 2\n", "a = 1\nb = 3\n", "a = 5\nb = 3\n", [("a", "kept", "", "1", "5", "1", 1)]),
        (AB, "a = 5\nb = 2\n", "a = 5\nb = 2\n", "a = 5\nb = 2\n",
         [("a", "agreed", "base-says-the-same", "1", "5", "5", 1)]),
        (AB, "b = 2\n", AB, "b = 2\n", [("a", "kept", "", "1", "", "1", 0)]),
        (AB, "b = 2\n", "b = 2\n", "b = 2\n", [("a", "agreed", "base-lacks-it-too", "1", "", "", 0)]),
        ("a = 1\n", "a = 1\nc = 3\n", "a = 1\n", "a = 1\nc = 3\n", [("c", "kept", "", "", "3", "", 2)]),
        ("a = 1\n", "a = 1\nc = 3\n", "a = 1\nc = 3\n", "a = 1\nc = 3\n",
         [("c", "agreed", "base-has-it-too", "", "3", "3", 2)]),
        ("a = 1\n", "a = 1\nc = 3 ; x\n", "a = 1\nc = 3\n", "a = 1\nc = 3\n",
         [("c", "left out", "base-has-it-its-own-way", "", "c = 3 ; x", "c = 3", 2)]),
        # around the value
        (AB, "a  = 1\nb = 2\n", AB, "a  = 1\nb = 2\n", [("a", "kept", "", "a = 1", "a  = 1", "a = 1", 1)]),
        (AB, "a  = 1\nb = 2\n", "a   = 1\nb = 2\n", "a   = 1\nb = 2\n",
         [("a", "left out", "base-changed-it-too", "a = 1", "a  = 1", "a   = 1", 1)]),
        (AB, "a  = 1\nb = 2\n", "a  = 1\nb = 2\n", "a  = 1\nb = 2\n",
         [("a", "agreed", "base-says-the-same", "a = 1", "a  = 1", "a  = 1", 1)]),
        (AB, "a  = 1\nb = 2\n", "b = 2\n", "b = 2\n",
         [("a", "left out", "base-lacks-this-line", "a = 1", "a  = 1", "", 1)]),
        # where lines stand
        ("a = 1\nb = 2\nc = 3\n", "b = 2\nc = 3\na = 1\n", "a = 1\nb = 2\nc = 3\n", "a = 1\nb = 2\nc = 3\n",
         [("a", "left out", "moved-by-hand", "1", "1", "1", 3)]),
        (SECTIONS, "[x]\na = 1\nc = 3\nd = 4\n[y]\nb = 2\n", "[y]\nb = 2\n", "[y]\nb = 2\n[x]\nc = 3\nd = 4\n",
         [("[x] c", "kept", "", "", "3", "", 3), ("[x] d", "kept", "", "", "4", "", 4)]),
        ("a = 1\n", "a = 1\n[z]\nq = 1\nr = 2\n", "a = 1\n", "a = 1\n[z]\nq = 1\nr = 2\n",
         [("the line 'z'", "kept", "", "", "[z]", "", 2), ("[z] q", "kept", "", "", "1", "", 3),
          ("[z] r", "kept", "", "", "2", "", 4)]),
        (AB, "a = 1\n\nb = 2\n", "a = 1\n\nb = 2\n", "a = 1\n\nb = 2\n",
         [("an empty line", "agreed", "base-has-it-too", "", "", "", 2)]),
        (AB, "a = 1\n\nb = 2\n", "a = 1\nb = 2\n\nc = 1\n", "a = 1\n\nb = 2\n\nc = 1\n",
         [("an empty line", "kept", "", "", "", "", 2)]),
        ("a = 1", "a = 1\n# x", "a = 1", "a = 1\n# x", [("the line '# x'", "kept", "", "", "# x", "", 2)]),
        ("a = 1\n", "# x\na = 1\n", "a = 1\n", "# x\na = 1\n", [("the line '# x'", "kept", "", "", "# x", "", 1)]),
        ("# x\na = 1\n", "# y\na = 1\n", "# x\na = 1\n", "# y\na = 1\n",
         [("the line '# x'", "kept", "", "# x", "", "# x", 0), ("the line '# y'", "kept", "", "", "# y", "", 1)]),
        # of a long text so much is shown as a screen holds
        (f"a = {LONG}\n", f"a = y{LONG}\n", f"a = {LONG}\n", f"a = y{LONG}\n",
         [("a", "kept", "", LONG[:80], f"y{LONG[:79]}", LONG[:80], 1)]),
        ("a = 1\n", f"a = 1\n# {LONG}\n", "a = 1\n", f"a = 1\n# {LONG}\n",
         [(f"the line '# {LONG[:78]}'", "kept", "", "", f"# {LONG[:78]}", "", 2)]),
    ],
)  # fmt: skip
def test_where_nobody_has_to_choose(old: str, mine: str, theirs: str, text: str, told: list[Told]) -> None:
    for choose in ("base", "derived", ""):
        got, merged = merge(old, mine, theirs, choose)
        assert got == text
        assert [
            (item.what, item.outcome, item.why, item.was, item.hand, item.new, item.line) for item in merged.decisions
        ] == told
        assert [item.chosen for item in merged.decisions] == [
            "derived" if item.outcome == "kept" else "" for item in merged.decisions
        ]


@pytest.mark.parametrize(
    ("old", "mine", "theirs", "by_hand", "values", "line"),
    [
        (AB, "a = 5\nb = 2\n", "a = 7\nb = 2\n", "a = 5\nb = 2\n", ("1", "5", "7"), 1),
        (AB, "a = 5\nb = 2\n", "b = 2\n", "a = 5\nb = 2\n", ("1", "5", ""), 1),
        (AB, "b = 2\n", "a = 7\nb = 2\n", "b = 2\n", ("1", "", "7"), 0),
        (AB, AB + "c = 3\n", AB + "c = 4\n", AB + "c = 3\n", ("", "3", "4"), 3),
    ],
)
def test_where_both_moved_the_person_chooses(
    old: str, mine: str, theirs: str, by_hand: str, values: tuple[str, str, str], line: int
) -> None:
    for choose, text, why in (("base", theirs, "base-preferred"), ("derived", by_hand, "hand-preferred")):
        got, merged = merge(old, mine, theirs, choose)
        (decision,) = merged.decisions
        assert (got, decision.outcome, decision.chosen, decision.why) == (text, "conflict", choose, why)
        assert ((decision.was, decision.hand, decision.new), decision.line) == (values, line)
    assert merge(old, mine, theirs, "")[0] == theirs


KINDS = (MAPPED, CARRIED, SPELLED, BESIDE, MOVED)


@pytest.mark.parametrize(
    ("old", "mine", "theirs", "taken", "told"),
    [
        (AB, "a = 5\nb = 2\n", AB, (CARRIED, SPELLED, BESIDE), {SPELLED: "kept", BESIDE: "kept", MOVED: "left out"}),
        (AB, "a = 5\nb = 2\n", "a = 7\nb = 2\n", (CARRIED,), dict.fromkeys((SPELLED, BESIDE, MOVED), "left out")),
        (AB, "a = 5\nb = 2\n", "a = 5\nb = 2\n", KINDS, dict.fromkeys((SPELLED, BESIDE, MOVED), "agreed")),
        (AB, "a = 5\nb = 2\n", "b = 2\n", (CARRIED,), dict.fromkeys((SPELLED, BESIDE, MOVED), "left out")),
        (AB, "b = 2\n", AB, (CARRIED,), {}),
        ("a = 1\n", AB, "a = 1\n", (CARRIED,), {}),
        ("a = 1\n", AB, "a = 1\nb = 4\n", (CARRIED,), {}),
        ("a = 1\n", "a = 1\n", "a = 2\n", (CARRIED,), {}),
    ],
)
def test_a_key_that_the_map_knows_goes_the_way_that_was_decided(
    old: str, mine: str, theirs: str, taken: tuple[str, ...], told: dict[str, str]
) -> None:
    """What was settled as settings is not asked a second time, and not lost."""
    why = {SPELLED: "spelled-its-own-way", BESIDE: "beside-its-values", MOVED: "another-value-now"}
    for kind in KINDS:
        got, merged = merge(old, mine, theirs, "derived", kind)
        assert got == (mine if kind in taken else theirs), kind
        assert [item.outcome for item in merged.decisions] == ([told[kind]] if kind in told else [])
        reasons = [item.why for item in merged.decisions if item.outcome == "left out"]
        assert reasons == [why.get(kind)] * len(reasons)
