"""A terminal of 40 to 60 columns: no word is broken, no value is torn from its unit, colours change no line break."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import pytest

from profilesmith.review.render import Look, render
from profilesmith.review.render.terminal_lines import StyledLine, coloured, plain
from profilesmith.review.review import Review
from profilesmith.review.wording import KEPT

Derived = Callable[..., Any]
Text = Callable[..., str]
SPEEDS = ("outer_wall.speed", "first_layer.nozzle_temperature", "support.overhang_angle")


@pytest.fixture
def review(derived: Derived, bind: Text, rule: Text) -> Review:
    bindings = "".join(bind(name, key) for name, key in zip(SPEEDS, ("rim", "tip", "lean"), strict=True))
    values = ('cap = "40 mm/s"', 'set = "215 °C"', 'set = "55 deg"')
    rules = "".join(rule(name, value) for name, value in zip(SPEEDS, values, strict=True))
    found: Review = derived("[rim]\nrim = 80\ntip = 205\nlean = 65\n", bindings, rules).review
    return found


def words(text: str) -> list[str]:
    return text.split()


@pytest.mark.parametrize("full", [False, True])
@pytest.mark.parametrize("width", [40, 44, 52, 60])
def test_no_word_is_broken(review: Review, width: int, full: bool) -> None:
    wide = render(review, "terminal", Look(width=100, full=full))
    text = render(review, "terminal", Look(width=width, full=full))
    assert set(words(text)) <= {*words(wide), "…"} | {word for line in wide.splitlines() for word in words(line)}
    long = [line for line in text.splitlines() if len(line) > width]
    assert [line for line in long if " " in line.strip()] == []


def test_a_value_stays_with_its_unit(review: Review) -> None:
    for line in render(review, "terminal", Look(width=40)).splitlines():
        assert not re.search(r"(→|→ \d+)$", line)
    assert "205 → 215 °C" in render(review, "terminal", Look(width=40))


@pytest.mark.parametrize("width", [40, 60, 100])
def test_colours_change_no_line_break(review: Review, width: int) -> None:
    for full in (False, True):
        drawn = render(review, "terminal", Look(width=width, colour=True, full=full))
        assert "\x1b[" in drawn
        assert re.sub(r"\x1b\[[\d;]*m", "", drawn) == render(review, "terminal", Look(width=width, full=full))


def test_a_word_that_is_longer_than_the_line_stays_whole() -> None:
    line = StyledLine(2, (("see ", ""), ("folder/" * 8 + "soft.settings", "bold")), 2)
    assert plain([line], 40).splitlines() == ["  see", f"    {'folder/' * 8}soft.settings"]
    assert re.sub(r"\x1b\[[\d;]*m", "", coloured([line], 40)) == plain([line], 40)
    assert plain([StyledLine(0, ((f"40{KEPT}mm/s " * 9, ""),))], 40).count("40 mm/s") == 9
