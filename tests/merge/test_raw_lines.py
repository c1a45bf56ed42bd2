"""Raw keys, comments and other lines: laws, and the same as ``git merge-file`` where both apply.

Outside check: git merge-file (git's own three-way merge of lines). Two edits on neighbouring lines are left out: git
takes them for one conflict, while keys are merged one by one.
"""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from profilesmith.merge.decision import AGREED, CONFLICT, KEPT, LEFT_OUT
from profilesmith.merge.raw_kinds import RAW
from profilesmith.merge.raw_lines import RawMerge, merge_raw
from profilesmith.text.edit_document import edit_text
from profilesmith.text.read_document import read_document
from tests.text.raw_entries import raw_entries

SIZE = 14
Edits = dict[int, str]


def merge(old: str, mine: str, theirs: str, choose: str = "") -> tuple[str, RawMerge]:
    was, edited, new = (
        read_document(text.encode(), name) for text, name in ((old, "old"), (mine, "mine"), (theirs, "theirs"))
    )
    found = merge_raw(was, edited, new, new, lambda section, key: RAW, lambda decision: choose)
    return edit_text(new.text, found.edits), found


def base() -> list[str]:
    """Keys and comments, all different, below two headings."""
    lines = ["[first]"] + [
        f"key_{number} = {number}" if number % 3 else f"# remark {number}" for number in range(1, SIZE // 2)
    ]
    return (
        lines
        + ["[second]"]
        + [f"key_{number} = {number}" if number % 4 else f"# remark {number}" for number in range(SIZE // 2, SIZE)]
    )


def edited(edits: Edits) -> str:
    lines: list[str] = []
    for number, line in enumerate(base()):
        what = edits.get(number, "")
        if line.startswith("["):
            what = "" if what != "insert" else what
        if what == "remove":
            continue
        lines.append(line if what != "change" else f"{line}7")
        if what == "insert":
            lines.append(f"# put in below {number}")
        if what == "key":
            lines.append(f"new_{number} = 1")
    return "\n".join(lines) + "\n"


KINDS = ("change", "remove", "insert", "key")
SPREAD = st.lists(st.integers(0, SIZE - 1), unique=True, max_size=6).map(
    lambda places: [
        place for at, place in enumerate(sorted(places)) if all(abs(place - other) > 2 for other in sorted(places)[:at])
    ]
)


@st.composite
def apart(draw: st.DrawFn) -> tuple[Edits, Edits]:
    """Edits of two sides, none next to another."""
    mine: Edits = {}
    theirs: Edits = {}
    for place in draw(SPREAD):
        kind = draw(st.sampled_from(KINDS))
        for side in draw(st.sampled_from(((mine,), (theirs,), (mine, theirs)))):
            side[place] = kind
    return mine, theirs


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    if not shutil.which("git"):
        pytest.skip("git is not here")
    return tmp_path_factory.mktemp("git")


def by_git(folder: Path, old: str, mine: str, theirs: str) -> tuple[str, int]:
    paths = [folder / name for name in ("mine", "old", "theirs")]
    for path, text in zip(paths, (mine, old, theirs), strict=True):
        path.write_text(text, encoding="utf-8", newline="")
    found = subprocess.run(["git", "merge-file", "-p", *map(str, paths)], capture_output=True, check=False)
    return found.stdout.decode(), found.returncode


@settings(max_examples=120, deadline=None, derandomize=True)
@given(edits=apart())
def test_the_same_as_git_where_both_apply(folder: Path, edits: tuple[Edits, Edits]) -> None:
    mine, theirs = (edited(side) for side in edits)
    wanted, conflicts = by_git(folder, edited({}), mine, theirs)
    got, found = merge(edited({}), mine, theirs)
    assert conflicts == 0
    assert got == wanted
    assert not [decision for decision in found.decisions if decision.outcome in (CONFLICT, LEFT_OUT)]


@settings(max_examples=60, deadline=None, derandomize=True)
@given(st.integers(0, SIZE - 1), st.sampled_from(("8", "9")), st.sampled_from(("8", "9", "")))
def test_a_conflict_of_git_on_one_key_is_one_here(folder: Path, place: int, one: str, other: str) -> None:
    lines = base()
    if not lines[place].startswith("key"):
        return
    mine = "\n".join([*lines[:place], lines[place] + one, *lines[place + 1 :]]) + "\n"
    theirs = "\n".join([*lines[:place], *([lines[place] + other] if other else []), *lines[place + 1 :]]) + "\n"
    _, conflicts = by_git(folder, edited({}), mine, theirs)
    _, found = merge(edited({}), mine, theirs)
    assert bool(conflicts) == any(decision.outcome == CONFLICT for decision in found.decisions)


ANY = st.dictionaries(st.integers(0, SIZE), st.sampled_from(KINDS), max_size=8)


@settings(max_examples=150, deadline=None, derandomize=True)
@given(ANY)
def test_identity(edits: Edits) -> None:
    """Nothing changed on one side: the bytes of the other."""
    text, old = edited(edits), edited({})
    assert merge(old, old, text)[0] == text
    got, found = merge(old, text, old)
    assert got == text
    assert all(decision.outcome == KEPT for decision in found.decisions)
    got, found = merge(old, text, text)
    assert got == text
    assert all(decision.outcome == AGREED for decision in found.decisions)


@settings(max_examples=150, deadline=None, derandomize=True)
@given(ANY, ANY, st.sampled_from(("base", "derived")))
def test_nothing_is_lost(mine: Edits, theirs: Edits, choose: str) -> None:
    """Every edit of a hand stands in the result, or a decision names it."""
    got, found = merge(edited({}), edited(mine), edited(theirs), choose)
    after, told = raw_entries(read_document(got.encode())), {decision.what for decision in found.decisions}
    before = raw_entries(read_document(edited({}).encode()))
    for name, text in raw_entries(read_document(edited(mine).encode())).items():
        if before.get(name) != text:
            assert after.get(name) == text or f"[{name[0]}] {name[1]}" in told
    for line in edited(mine).splitlines():
        if line.startswith("# put in"):
            assert line in got.splitlines()


@settings(max_examples=150, deadline=None, derandomize=True)
@given(ANY, ANY)
def test_a_conflict_never_vanishes(mine: Edits, theirs: Edits) -> None:
    """Whichever side is chosen, the same conflicts are told; and of the base's side nothing else is lost."""
    texts = edited({}), edited(mine), edited(theirs)
    conflicts = []
    for choose in ("", "base", "derived"):
        _, found = merge(*texts, choose)
        conflicts.append(
            [(item.what, item.was, item.hand, item.new) for item in found.decisions if item.outcome == CONFLICT]
        )
    assert conflicts[0] == conflicts[1] == conflicts[2]
    swapped = merge(texts[0], texts[2], texts[1])[1]
    # Removed here and changed there is a conflict from both sides, too.
    assert {item.what for item in swapped.decisions if item.outcome == CONFLICT} == {what for what, *_ in conflicts[0]}


def outcomes(found: RawMerge) -> list[str]:
    return [decision.outcome for decision in found.decisions]


def test_a_remark_behind_a_value_is_carried() -> None:
    got, found = merge("a = 1\n", "a = 1  # mine\n", "a = 2\n")
    assert got == "a = 2  # mine\n"
    assert outcomes(found) == [KEPT]


def test_a_line_that_is_commented_out() -> None:
    got, found = merge("a = 1\nb = 2\nc = 3\n", "a = 1\n# b = 2\nc = 3\n", "a = 1\nb = 2\nc = 4\n")
    assert got == "a = 1\n# b = 2\nc = 4\n"
    assert outcomes(found) == [KEPT, KEPT]


def test_a_key_put_into_a_section_that_the_base_has_no_more() -> None:
    got, found = merge("[a]\nx = 1\n[b]\ny = 1\n", "[a]\nx = 1\n[b]\ny = 1\nz = 2\n", "[a]\nx = 1\n")
    assert raw_entries(read_document(got.encode())) == {("a", "x", 0): "1", ("b", "z", 0): "2"}
    assert outcomes(found) == [KEPT]


def test_a_whole_new_section() -> None:
    got, _ = merge("[a]\nx = 1\n", "[a]\nx = 1\n\n[b]\ny = 1\n", "# top\n[a]\nx = 2\n")
    assert got == "# top\n[a]\nx = 2\n\n[b]\ny = 1\n"


def test_a_missing_last_line_end_stays_missing() -> None:
    got, _ = merge("a = 1", "a = 1\nb = 2", "a = 3")
    assert got == "a = 3\nb = 2"


def test_lines_that_hands_moved_are_named() -> None:
    got, found = merge("a = 1\nb = 2\nc = 3\n", "b = 2\nc = 3\na = 1\n", "a = 1\nb = 2\nc = 4\n")
    assert got == "a = 1\nb = 2\nc = 4\n"
    assert outcomes(found) == [LEFT_OUT]


def test_other_line_ends_are_one_edit() -> None:
    got, found = merge("a = 1\nb = 2\n", "a = 1\r\nb = 5\r\n", "a = 1\nb = 2\n")
    assert got == "a = 1\nb = 5\n"
    assert [decision.what for decision in found.decisions] == ["the line ends", "b"]


def test_a_value_of_several_lines() -> None:
    got, found = merge("a = 1\n  2\nb = 1\n", "a = 1\n  3\nb = 1\n", "a = 1\n  2\nb = 2\n")
    assert got == "a = 1\n  3\nb = 2\n"
    assert outcomes(found) == [KEPT]


def test_a_last_line_end_that_a_hand_took_is_named() -> None:
    got, found = merge("a = 1\nb = 2\n", "a = 1\nb = 2", "a = 1\nb = 2\n")
    assert got == "a = 1\nb = 2\n"
    assert [(decision.what, decision.outcome) for decision in found.decisions] == [("the last line end", LEFT_OUT)]


def test_another_encoding_is_named() -> None:
    was, edited, new = (
        read_document(raw) for raw in ("ä = 1\n".encode(), "ä = 1\n".encode("utf-16"), "ä = 2\n".encode())
    )
    found = merge_raw(was, edited, new, new, lambda section, key: RAW, lambda decision: "")
    assert [(decision.what, decision.outcome) for decision in found.decisions] == [("the encoding", LEFT_OUT)]
    assert found.edits == ()
