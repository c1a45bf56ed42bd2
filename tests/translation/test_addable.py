"""What may be added to a text: never a setting that stands there, nor one whose number hangs on another."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest

from profilesmith.profile.profile import Grid


@pytest.mark.parametrize(
    ("more", "text", "may"),
    [
        ("add = true", "b = 1\n", True),
        ("", "b = 1\n", False),
        ("add = true", "a = 50\nb = 1\n", False),  # it is there
        ("add = true", "a =\nb = 1\n", False),
        ('add = true\nrelative_to = "infill.speed"', "b = 1\n", False),
    ],
)
def test_what_may_be_added(
    more: str, text: str, may: bool, read_text: Callable[..., Any], bind: Callable[..., str]
) -> None:
    translation = read_text(bind("outer_wall.speed", "a", more) + bind("infill.speed", "b"), text)
    assert ("outer_wall.speed" in translation.profile.addable) is may


def test_what_another_is_a_share_of_is_left_to_the_person(
    read_text: Callable[..., Any], bind: Callable[..., str]
) -> None:
    lines = bind("infill.speed", "a", "add = true") + bind("outer_wall.speed", "b", 'relative_to = "infill.speed"')
    assert read_text(lines, "b = 40 mm/s\n").profile.addable == {}
    assert {*read_text(lines, "c = 1\n").profile.addable} <= {"infill.speed"}


def test_on_which_grid(read_text: Callable[..., Any], bind: Callable[..., str]) -> None:
    lines = bind("layer.height", "a", "add = true") + bind("wall.count", "b", "add = true")
    lines += bind("raft.on", "c", "add = true") + bind("infill.density", "d", 'unit = "fraction"\nadd = true')
    grids = read_text(lines + bind("infill.speed", "e"), "e = 1\n").profile.addable
    assert grids["wall.count"] == Grid(Fraction(1), whole=True)
    assert grids["raft.on"] == Grid()
    assert 0 < grids["layer.height"].step < Fraction(1, 10)
    assert 0 < grids["infill.density"].step <= 1
