"""What raw texts were read as is remembered for the next profile of the same map, and no more than fits."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest

import profilesmith.translation.readings as readings_module
from profilesmith.text.read_document import read_document
from profilesmith.translation.pieces import DecimalMark
from profilesmith.translation.read_again import read_again
from profilesmith.translation.readings import Readings
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

POINT, COMMA = DecimalMark(".", True), DecimalMark(",", True)


@pytest.fixture
def readings(read_map: Callable[[str], Any], bind: Callable[..., str]) -> Readings:
    key_map, _ = read_map(bind("outer_wall.speed", "a") + bind("layer.height", "b"))
    return Readings(key_map, load_vocabulary())


def test_the_same_text_is_read_once(readings: Readings, monkeypatch: pytest.MonkeyPatch) -> None:
    wall, height = readings.key_map.bindings
    asked = [(POINT, wall, "1.5"), (COMMA, wall, "1,5"), (POINT, height, "1.5"), (POINT, wall, "2")]
    first = [readings.of(*item) for item in asked]
    assert [readings.of(*item) for item in asked] == first
    assert all(readings.of(*item) is known for item, known in zip(asked, first, strict=True))
    monkeypatch.setattr(readings_module, "MOST", len(asked))
    readings.of(POINT, wall, "3")  # one more than fits: it begins anew
    assert len(readings._known) == 1
    assert readings.of(*asked[0]) == first[0]


@pytest.mark.parametrize(
    ("setting", "more", "text", "unit"),
    [
        ("outer_wall.speed", "", "60", "mm/s"),
        ("outer_wall.speed", 'unit = "mm/min"', "60", "mm/min"),
        ("outer_wall.speed", "", "60 mm/s", ""),  # the text says it itself
        ("nozzle.temperature", "", "210°", ""),
        ("infill.density", "", "20", "%"),
        ("infill.density", "", "20 %", ""),
        ("outer_wall.speed", 'relative_key = "b"', "60", ""),
        ("wall.count", "", "3", ""),
    ],
)
def test_in_which_unit_a_bare_number_was_read(
    setting: str, more: str, text: str, unit: str, read_text: Callable[..., Any], bind: Callable[..., str]
) -> None:
    translation = read_text(bind(setting, "a", more), f"a = {text}\nb = 100\n")
    assert translation.problems == ()
    assert translation.profile.entries[setting].unit == unit


def test_of_a_list_one_entry_may_be_a_share(read_text: Callable[..., Any], bind: Callable[..., str]) -> None:
    lists = 'relative_to = "infill.speed"\ntools = true'
    lines = bind("outer_wall.speed", "a", lists) + bind("infill.speed", "b")
    for text, values, shares in (
        ("30 mm/s, 50 %", (30, 40), (None, Fraction(1, 2))),
        ("50 %, 30 mm/s", (40, 30), (Fraction(1, 2), None)),
        ("50, 25 %", (40, 20), (Fraction(1, 2), Fraction(1, 4))),
        ("30 mm/s, 20 mm/s", (30, 20), ()),
    ):
        entry = read_text(lines, f"a = {text}\nb = 80\n").profile.entries["outer_wall.speed"]
        assert (entry.values, entry.shares) == (values, shares)
        assert entry.relative_to == ("infill.speed" if shares else "")


def test_what_stands_in_the_same_line_is_taken_over_and_all_else_is_read(
    read_text: Callable[..., Any], bind: Callable[..., str]
) -> None:
    before = read_text(bind("outer_wall.speed", "a") + bind("layer.height", "b"), "a = 60\nb = 0.2\n")

    def again(text: str) -> Any:
        return read_again((read_document(text.encode(), "base1.cfg", before.key_map.habits),), before).entries

    wall, height = before.profile.entries["outer_wall.speed"], before.profile.entries["layer.height"]
    same = again("a = 60\nb = 0.3\n")
    assert same["outer_wall.speed"] is wall
    assert (same["layer.height"].value, same["layer.height"].origin.line) == (Fraction("0.3"), 2)
    moved = again("c = 1\na = 60\nb = 0.2\n")
    assert (moved["outer_wall.speed"].value, moved["outer_wall.speed"].origin.line) == (60, 2)
    assert (moved["layer.height"].value, moved["layer.height"].origin.line) == (height.value, 3)


@pytest.mark.parametrize(
    "after",
    [
        "a = 70\nb = 50 %\n[x]\nc = 0.2\nd = 3; 4\n",
        "a = 60\nb = 40\n[x]\nc = 0.25\nd = 3; 5\n",
        "a = 60\nb = 50 %\n[x]\nc = 0.25\nd = 3; 4\n",
        "a = 60\n# b = 50 %\n[x]\nc = 0.2\nd = 3; 4\n",
        "a = 60\nb = 50 %\n[y]\nc = 0.2\nd = 3; 4\n",
        "[x]\na = 60\nb = 50 %\nc = 0.2\nd = 3; 4\n",
        "a = 60\nb = 50 %\n[x]\nc = 0.2\nd = 3; 4\ne = 1\n",
        "a = x\nb = 50 %\n[x]\nc = \nd = 3\n",
        "a = 60\nb = 50 %\n[x]\nd = 0.2\nc = 3; 4\n",
    ],
)
def test_a_text_read_again_says_what_it_says_to_somebody_who_never_saw_the_other(
    after: str, read_text: Callable[..., Any], bind: Callable[..., str]
) -> None:
    lines = bind("infill.speed", "a") + bind("outer_wall.speed", "b", 'relative_to = "infill.speed"')
    lines += bind("layer.height", "c", 'section = "x"') + bind("wall.count", "d", 'split = ";"\nfield = 2')
    before, anew = read_text(lines, "a = 60\nb = 50 %\n[x]\nc = 0.2\nd = 3; 4\n"), read_text(lines, after)
    assert len(before.profile.entries) == 4
    assert read_again(anew.documents, before).entries == anew.profile.entries
