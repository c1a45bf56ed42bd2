"""What is wrong with a map and a text together: each is named with the line and with what to write."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

ReadText = Callable[..., Any]
Bind = Callable[..., str]


def problems(translation: Any) -> list[tuple[str, int]]:
    return [(problem.code, problem.place.line) for problem in translation.problems]


def test_two_bindings_that_mean_one_line(read_text: ReadText, bind: Bind) -> None:
    """The map names them apart, by a section; this text has only one of the lines."""
    lines = bind("outer_wall.speed", "a") + bind("inner_wall.speed", "a", 'section = "x"')
    translation = read_text(lines, "b = 1\n[x]\na = 60\n")
    assert problems(translation) == [("key-twice", 3)]
    assert "both outer_wall.speed and inner_wall.speed: 'a'" in translation.problems[0].message
    assert problems(read_text(lines, "a = 50\n[x]\na = 60\n")) == []


def test_what_may_share_a_line(read_text: ReadText, bind: Bind) -> None:
    """Fields of one value, a switch and its number, switches with texts of their own; also several such pairs."""
    fields = "".join(
        bind(name, "t", f'split = "/"\nfield = {number}')
        for number, name in enumerate(("nozzle.temperature", "bed.temperature"), 1)
    )
    number = bind("retraction.on", "pull", 'on_when = "> 0"\non = "3"') + bind("retraction.distance", "pull")
    shared = "".join(
        bind(name, key, f'on = "{text}"\noff = "0"') for name, key, text in (("raft.on", "u", 3), ("brim.on", "u", 2))
    )
    assert problems(read_text(fields + number + shared, "t = 210/60\npull = 4\nu = 3\n")) == []
    assert problems(read_text(shared + number + fields, "t = 210/60\npull = 4\nu = 3\n")) == []
    assert problems(read_text(number.replace("retraction.on", "support.on") + shared, "pull = 4\nu = 3\n")) == []


@pytest.mark.parametrize(
    ("head", "more", "text", "sign"),
    [
        ('thousands = ","', 'list = ","', "a = 60,70\n", "groups the digits of its numbers"),
        ("", "", "b = 1,5\na = 60,70\n", "is this text's decimal mark"),
        ('decimal = "."', "", "a = 60,70\n", ""),
        ("", 'list = "|"', "b = 1,5\na = 60|70\n", ""),
        ('thousands = ","', 'list = ";"', "a = 60;70\n", ""),
    ],
)
def test_a_list_divided_by_a_sign_of_its_numbers(
    head: str, more: str, text: str, sign: str, read_text: ReadText, bind: Bind
) -> None:
    lines = bind("outer_wall.speed", "a", f"tools = true\n{more}") + bind("layer.height", "b")
    translation = read_text(f"[text]\n{head}\n{lines}", text)
    said = [problem for problem in translation.problems if problem.code == "decimal-divides"]
    assert len(said) == bool(sign)
    if said:
        assert sign in said[0].message
        assert text.splitlines()[said[0].place.line - 1].startswith("a =")


def test_switches_in_a_list_are_no_numbers(read_text: ReadText, bind: Bind) -> None:
    lines = bind("raft.on", "a", "tools = true") + bind("layer.height", "b")
    assert problems(read_text(lines, "b = 1,5\na = 1,0\n")) == []


def test_why_a_key_is_not_found(read_text: ReadText, bind: Bind) -> None:
    other = bind("travel.speed", "t")
    for more, text, absent in (
        ('section = "x"', "t = 1\n[y]\na = 1\n", ("key elsewhere", ("a", "x", "y"))),
        ('section = "x"', "a = 1\nt = 1\n[y]\na = 1\n", ("key elsewhere", ("a", "x", ""))),
        ('section = "x"', "t = 1\n[z]\na = 1\n[y]\na = 1\n", ("key elsewhere", ("a", "x", "y", "z"))),
        ("", "t = 1\n", ("key missing", ("a", "", ""))),
    ):
        found = read_text(bind("outer_wall.speed", "a", more) + other, text).profile.absent["outer_wall.speed"]
        assert (found.code, found.names) == absent
    near = read_text(bind("outer_wall.speed", "wallspeed") + other, "wall_speed = 1\nt = 1\n")
    assert near.profile.absent["outer_wall.speed"].names == ("wallspeed", "", "wall_speed")


def test_a_map_for_another_text_offers_the_nearest_key(read_text: ReadText, bind: Bind) -> None:
    (problem,) = read_text(bind("outer_wall.speed", "wallspeed"), "wall_speed = 1\n").problems
    assert problem.code == "wrong-map"
    assert problem.hint.startswith("Write key = \"wall_speed\" for 'wallspeed', if that is meant.")
    (problem,) = read_text(bind("outer_wall.speed", "q"), "wall_speed = 1\n").problems
    assert problem.hint.startswith("Use the map that was made for this text")
