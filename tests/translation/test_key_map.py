"""What a map says by itself: how a switch reads, whose place is whose, which keys are left alone."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

ReadMap = Callable[[str], Any]
Bind = Callable[..., str]
WORDS = ("ja", "nein")


@pytest.mark.parametrize(
    ("more", "words", "text", "on"),
    [
        ('on = "3"\noff = "0"', (), "3", True),
        ('on = "3"\noff = "0"', (), "0", False),
        ('on = "3"\noff = "0"', (), "1", False),  # any other text is off
        ('on = ["3", "4"]\noff = "0"', (), "4", True),
        ('on = "3"\noff = "0"', WORDS, "ja", False),  # what the binding says goes first
        ("", WORDS, "ja", True),
        ("", WORDS, "nein", False),
        ("", WORDS, "on", None),
        ("", (), "on", True),
        ("", (), "OFF", False),
        ("", (), "Enabled", True),
        ("", (), "disabled", False),
        ("", (), "0", False),
        ("", (), "perhaps", None),
        ('on_when = "> 0"\non = "3"', (), "2", True),
        ('on_when = "> 0"\non = "3"', (), "0", False),
        ('on_when = "> 0"\non = "3"', (), "0,5", True),
        ('on_when = "> 0"\non = "3"', (), "2 mm", True),
        ('on_when = "> 0"\non = "3"', (), "many", None),
    ],
)
def test_how_a_switch_reads(
    more: str, words: tuple[str, ...], text: str, on: bool | None, read_map: ReadMap, bind: Bind
) -> None:
    head = f'[text]\non = "{words[0]}"\noff = "{words[1]}"\n' if words else ""
    key_map, problems = read_map(head + bind("raft.on", "a", more))
    assert problems == []
    assert key_map.words == words
    assert key_map.bindings[0].is_on(text, words) is on


def test_a_text_for_off_alone_makes_all_others_on(read_map: ReadMap, bind: Bind) -> None:
    key_map, _ = read_map('[text]\non = "1"\noff = "0"\n' + bind("raft.on", "a", 'off = "none"'))
    assert [key_map.bindings[0].is_on(text, key_map.words) for text in ("none", "0", "wide")] == [False, True, True]


@pytest.mark.parametrize(
    ("setting", "more", "unit"),
    [
        ("outer_wall.speed", "", "mm/s"),
        ("outer_wall.speed", 'unit = "mm/min"', "mm/min"),
        ("outer_wall.speed", 'relative_to = "infill.speed"', "%"),
        ("outer_wall.speed", 'relative_key = "b"', "%"),
        ("outer_wall.speed", 'relative_key = "b"\nunit = "fraction"', "fraction"),
        ("wall.count", "", None),
        ("raft.on", "", None),
    ],
)
def test_the_unit_of_a_bare_number(setting: str, more: str, unit: str | None, read_map: ReadMap, bind: Bind) -> None:
    key_map, problems = read_map(bind(setting, "a", more))
    assert problems == []
    own = key_map.bindings[0].own_unit
    assert (own.name if own else None) == unit


def test_a_switch_rides_on_the_number_in_its_very_place(read_map: ReadMap, bind: Bind) -> None:
    number, switch = bind("raft.layers", "a", 'section = "x"'), 'on_when = "> 0"\non = "3"\n'
    for more, rides in (('section = "x"', True), ('section = "y"', False), ("", False)):
        key_map, _ = read_map(number + bind("raft.on", "a", switch + more))
        layers, raft = key_map.bindings
        assert raft.rides(layers) is rides
        assert key_map.number_of(raft) is (layers if rides else None)
        assert key_map.number_of(layers) is None
        assert not raft.rides(raft)
        assert not layers.rides(raft)
    key_map, _ = read_map(number + bind("raft.on", "b", switch + 'section = "x"'))
    assert key_map.number_of(key_map.bindings[1]) is None


def test_who_shares_a_key(read_map: ReadMap, bind: Bind) -> None:
    texts = 'on = "{}"\noff = "0"\n'
    raft, brim = bind("raft.on", "a", texts.format(3)), bind("brim.on", "a", texts.format(2))
    key_map, problems = read_map(raft + brim + bind("support.on", "b", texts.format(1)) + bind("wall.count", "c"))
    assert problems == []
    assert [[item.setting for item in sharers] for sharers in key_map.sharers()] == [["raft.on", "brim.on"]]
    key_map, _ = read_map(raft + brim.replace('key = "a"', 'key = "a"\nsection = "x"'))
    assert key_map.sharers() == ()
    both = bind("support.on", "d", 'on_when = "> 0"\non = "1"') + bind("support.contact_layers", "d")
    assert read_map(both)[0].sharers() == ()


def test_a_run_may_say_what_becomes_of_all_shares(read_map: ReadMap, bind: Bind) -> None:
    share = 'relative_to = "infill.speed"\n'
    text = bind("outer_wall.speed", "a", share + 'shares = "follow"') + bind("inner_wall.speed", "b", share)
    key_map, problems = read_map(text + bind("infill.speed", "c"))
    assert problems == []
    for way, follows in (("", [True, False, False]), ("keep", [False] * 3), ("follow", [True] * 3)):
        assert [binding.follows for binding in key_map.with_shares(way).bindings] == follows
    assert [binding.follows for binding in read_map('[text]\nshares = "follow"\n' + text)[0].bindings][:2] == [True] * 2


def test_a_setting_is_found_by_its_name(read_map: ReadMap, bind: Bind) -> None:
    key_map, _ = read_map(bind("outer_wall.speed", "a") + bind("infill.speed", "b", 'section = "x"'))
    assert key_map.binding("infill.speed").name == "[x] b"
    assert key_map.binding("outer_wall.speed").name == "a"
    assert key_map.binding("travel.speed") is None
