"""Switches that share a key with something else."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest

Text = Callable[..., str]
RAFT, BRIM = "raft.on", "brim.on"


@pytest.mark.parametrize(
    ("on_when", "off", "lowest"),
    [
        ("> 0", 0, 1),
        ("> 2", 0, 3),  # the next number that the text can hold
        (">= 2", 1, 2),
        ("< 5", 9, None),
    ],
)
def test_the_least_number_that_reads_as_on(
    on_when: str, off: int, lowest: int | None, read_text: Callable[..., Any], bind: Text
) -> None:
    """A rule on the number may not switch the thing off by the way."""
    lines = bind(RAFT, "pads", f'on_when = "{on_when}"\non = "3"\noff = "{off}"') + bind("raft.layers", "pads")
    read = read_text(lines, "pads = 3\n")
    assert not read.problems
    coupling = read.profile.entries["raft.layers"].coupling
    assert coupling is not None
    assert (coupling.switch, coupling.lowest, coupling.on_value, coupling.off_value) == (RAFT, lowest, 3, off)


@pytest.mark.parametrize(
    ("on_when", "more", "lowest", "on", "off"),
    [
        ("> 0", "", 1, None, 0),  # what turning it on writes, nobody said
        ("> 2", 'off = "1"', 3, None, 1),
        ("> 0", 'on = "2"', 1, 2, 0),
    ],
)
def test_a_map_need_not_say_what_on_is(
    on_when: str,
    more: str,
    lowest: int,
    on: int | None,
    off: int,
    read_text: Callable[..., Any],
    bind: Text,
) -> None:
    read = read_text(bind(RAFT, "pads", f'on_when = "{on_when}"\n{more}') + bind("raft.layers", "pads"), "pads = 3\n")
    coupling = read.profile.entries["raft.layers"].coupling
    assert (coupling.lowest, coupling.on_value, coupling.off_value) == (lowest, on, off)


def test_a_number_in_steps_reads_as_on_one_step_above(read_text: Callable[..., Any], bind: Text) -> None:
    lines = bind(BRIM, "rim", 'on_when = "> 0"\non = "0.5"') + bind("brim.width", "rim")
    coupling = read_text(lines, "rim = 3.25\n").profile.entries["brim.width"].coupling
    assert 0 < coupling.lowest <= Fraction(1, 10)
    assert coupling.on_value == Fraction(1, 2)
    plain = read_text(bind("brim.width", "rim") + bind(BRIM, "other"), "rim = 3\nother = 1\n")
    assert plain.profile.entries["brim.width"].coupling is None


@pytest.mark.parametrize(("text", "on"), [("2|3", "3|3"), ("3|2", "3|3"), ("0|2", "3|3")])
def test_each_tool_s_key_says_the_switch_that_is_on(
    text: str, on: str, derived: Callable[..., Any], bind: Text, rule: Text
) -> None:
    lists = 'off = "0"\ntools = true\nlist = "|"'
    lines = bind(BRIM, "under", f'on = "2"\n{lists}') + bind(RAFT, "under", f'on = "3"\n{lists}')
    made = derived(f"under = {text}\n", lines, rule(RAFT, 'set = "on"'))
    assert made.outputs[0].decode() == f"under = {on}\n"
