"""Machine commands inside values, held against the derived profile.

Outside: the commands' meaning in the open G-code dialect (M104/M109 nozzle, M140/M190 bed, S or R degrees Celsius, T
the tool, S0 off; M220 speed factor, M221 flow factor, in per cent; ``;`` begins a comment). From memory, common
practice.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest

from profilesmith.review.look_first import look_first_points
from profilesmith.review.point import PointMend
from profilesmith.review.render.brief import fix_words
from profilesmith.text.document import Document
from profilesmith.translation.start_block import find_literals

ReadText = Callable[..., Any]
Bind = Callable[..., str]


def found(text: str, read_text: ReadText, bind: Bind) -> list[tuple[str, Any, int, int]]:
    translation = read_text(bind("nozzle.temperature", "tip"), "tip = 205\n" + text)
    return [(item.command.upper(), item.number, item.line, item.tool) for item in find_literals(translation)]


@pytest.mark.parametrize(
    ("text", "commands"),
    [
        ("s = M104 S205\n", [("M104", 205, 2, 0)]),
        ("s = m109 s205\n", [("M109", 205, 2, 0)]),
        ("s = M109 R205\n", [("M109", 205, 2, 0)]),
        ("s = M104S205\n", [("M104", 205, 2, 0)]),
        ("s = M104 T1 S205\n", [("M104", 205, 2, 1)]),
        ("s = M190 S65.5\n", [("M190", Fraction("65.5"), 2, 0)]),
        (r"s = G28\nM140 S65\nM104 S0" + "\n", [("M140", 65, 2, 0), ("M104", 0, 2, 0)]),
        (r"s = G28\r\nM140 S65" + "\n", [("M140", 65, 2, 0)]),
        ("s = G28\n    M104 S205\n    M109 S205\n", [("M104", 205, 3, 0), ("M109", 205, 4, 0)]),
        ("M104 S205\n", [("M104", 205, 2, 0)]),
        ("s = M220 S90 | M221 S98\n", [("M220", 90, 2, 0), ("M221", 98, 2, 0)]),
        ('s = "M104 S205"\n', [("M104", 205, 2, 0)]),
        ("s = N10 M104 S205 *33\n", [("M104", 205, 2, 0)]),
        # not commands, or not these
        ("s = ; M104 S205\n", []),
        (r"s = G28 X0 Y0 ; then M104 S205\nM140 S60" + "\n", [("M140", 60, 2, 0)]),
        pytest.param(
            r"s = G28 ; then M104 S205\nM140 S60" + "\n",
            [("M140", 60, 2, 0)],
        ),
        ("# M104 S205\n", []),
        ("s = M1040 S205\n", []),
        ("s = XM104 S205\n", []),
        ("s = M104\n", []),
        ("s = M104 S\n", []),
        ("s = M106 S255\n", []),
        ("s = M104 S{tip}\n", []),
        ("tip2 = 205\n", []),
        ("s = M104 X1 Y2 Z3 E4 F5 S205\n", []),
    ],
)
def test_literals(text: str, commands: list[tuple[str, Any, int, int]], read_text: ReadText, bind: Bind) -> None:
    assert found(text, read_text, bind) == commands


def test_the_tool_may_stand_behind_the_temperature(read_text: ReadText, bind: Bind) -> None:
    assert found("s = M104 S205 T1\n", read_text, bind) == [("M104", 205, 2, 1)]


@pytest.mark.parametrize("number", ["205.0005", "20500", "205.5.5"])
def test_no_part_of_a_longer_number(number: str, read_text: ReadText, bind: Bind) -> None:
    assert found(f"s = M104 S{number}\n", read_text, bind) in (
        [],
        [("M104", Fraction("205.0005"), 2, 0)],
        [("M104", Fraction(20500), 2, 0)],
    )


def test_a_value_that_the_map_knows_is_no_start_block(read_text: ReadText, bind: Bind) -> None:
    translation = read_text(
        bind("nozzle.temperature", "tip") + bind("infill.pattern", "s"), "tip = 205\ns = M104 S205\n"
    )
    assert list(find_literals(translation)) == []


BASE = "tip = 205\nfirst = 210\nplate = 65\n"
SET = '[[rule]]\nsetting = ["nozzle.temperature", "first_layer.nozzle_temperature"]\nset = "215 °C"\nwhy = "test"\n'


def bindings(bind: Bind) -> str:
    return (
        bind("nozzle.temperature", "tip")
        + bind("first_layer.nozzle_temperature", "first")
        + bind("bed.temperature", "plate")
    )


@pytest.mark.parametrize(
    ("block", "words"),
    [
        ("s = M104 S205", ["M104 heats to 205 °C, but nozzle.temperature is 215 °C", "--start-block follow"]),
        ("s = M109 S210", ["first_layer.nozzle_temperature is 215 °C", "--start-block follow"]),
        ("s = M104 S190", ["M104 heats to 190 °C", "edit it yourself"]),
        ("s = M221 S98", ["M221 scales all extrusion to 98 %"]),
        ("s = M220 S120", ["M220 scales all speeds to 120 %"]),
    ],
)
def test_contradictions_are_named(block: str, words: list[str], derived: Callable[..., Any], bind: Bind) -> None:
    found = derived(f"{BASE}{block}\n", bindings(bind), SET).review.literals
    assert len(found) == 1
    told = f"{found[0]} ({fix_words(PointMend(follow=found[0].can_follow))})"
    assert "base.cfg:4" in told
    assert [word for word in words if word not in told] == []


@pytest.mark.parametrize(
    "block", ["s = M104 S0", "s = M140 S0", "s = M190 S65", "s = M104 S215", "s = M220 S100", "s = M221 S100"]
)
def test_what_agrees_or_switches_off_is_left_alone(block: str, derived: Callable[..., Any], bind: Bind) -> None:
    made = derived(f"{BASE}{block}\n", bindings(bind), SET, follow_literals=True)
    assert made.review.literals == ()
    assert f"{block}\n" in made.outputs[0].decode()


def test_followed_literals_are_rows_of_their_own(derived: Callable[..., Any], bind: Bind) -> None:
    made = derived(
        BASE + r"s = M104 S205\nM109 S210\nM140 S65" + "\nend = M104 S0\n", bindings(bind), SET, follow_literals=True
    )
    assert made.outputs[0].decode().splitlines()[3:] == [r"s = M104 S215\nM109 S215\nM140 S65", "end = M104 S0"]
    rows = [row for row in made.ledger.rows if row.cause.kind == "start block"]
    assert [(row.setting, row.old_text, row.new_text, row.line, row.key) for row in rows] == [
        ("nozzle.temperature", "M104 S205", "M104 S215", 4, "s"),
        ("first_layer.nozzle_temperature", "M109 S210", "M109 S215", 4, "s"),
    ]
    assert made.review.literals == ()


def test_a_followed_literal_is_told_as_it_is_written(derived: Callable[..., Any], bind: Bind) -> None:
    made = derived(BASE + "s = M109 R205\n", bindings(bind), SET, follow_literals=True)
    assert made.outputs[0].decode().endswith("s = M109 R215\n")
    assert [row.old_text for row in made.ledger.rows if row.cause.kind == "start block"] == ["M109 R205"]


def test_a_literal_of_the_second_tool(derived: Callable[..., Any], bind: Bind) -> None:
    text = "tip = 205,220\ns = M104 S220 T1\n"
    rule = '[[rule]]\nsetting = "nozzle.temperature"\nraise_to = "210 °C"\nwhy = "test"\n'
    made = derived(text, bind("nozzle.temperature", "tip", "tools = true"), rule)
    assert made.outputs[0].decode().startswith("tip = 210,220\n")
    assert made.review.literals == ()


TWO = "tip = 210,205\nfirst = 215,210\n"
OF_ONE = [
    ("M109 S205", "2", "nozzle.temperature of tool 2 is 215 °C: 10 °C too cold", True),
    ("M109 S190", "2", "nozzle.temperature of tool 2 is 215 °C: 25 °C too cold; it is not the old temperature", False),
    ("M109 S190 T0", "2", "nozzle.temperature of tool 1 is 210 °C: 20 °C too cold; it is not the old", False),
    ("M109 S205 T1", "2", "nozzle.temperature of tool 2 is 215 °C: 10 °C too cold", True),
    ("M109 S210", "2", "", False),  # the first tool's, which stays as it is
    ("M109 S215", "2", "", False),
    ("M109 S205", "1", "nozzle.temperature of tool 1 is 215 °C: 10 °C too cold; it is not the old", False),
]


@pytest.mark.parametrize(("command", "tool", "words", "can_follow"), OF_ONE)
def test_a_command_is_held_against_the_tool_that_carries_the_spool(
    command: str, tool: str, words: str, can_follow: bool, derived: Callable[..., Any], bind: Bind
) -> None:
    """205 °C, the old temperature of the spool's own tool, was once held against the other tool's 210 °C."""
    lines = "".join(
        bind(name, key, "tools = true")
        for name, key in (("nozzle.temperature", "tip"), ("first_layer.nozzle_temperature", "first"))
    )
    review = derived(f"{TWO}s = {command}\n", lines, SET, answers={"spool.tool": tool}).review
    assert [item.can_follow for item in review.literals] == ([can_follow] if words else [])
    points = [point for point in look_first_points(review) if point.kind == "start block"]
    assert [words in point.text for point in points] == ([True] if words else [])
    assert not any("edit it yourself" in point.text for point in points)  # its mend says so already


def test_of_all_tools_the_one_is_named_whose_old_temperature_a_command_repeats(
    derived: Callable[..., Any], bind: Bind
) -> None:
    made = derived(f"{TWO}s = M109 S205\n", bind("nozzle.temperature", "tip", "tools = true"), RAISED)
    assert "nozzle.temperature of tool 2 is 222 °C" in str(made.review.literals[0])
    assert made.review.literals[0].can_follow


RAISED = '[[rule]]\nsetting = "nozzle.temperature"\nset = "222 °C"\nwhy = "test"\n'


class Counting(str):
    """A text that counts the characters that are copied out of it."""

    copied = 0

    def __getitem__(self, at: object) -> str:  # type: ignore[override]
        piece = str.__getitem__(self, at)  # type: ignore[index]
        Counting.copied += len(piece)
        return piece


def test_many_literals_are_found_in_one_pass(read_text: ReadText, bind: Bind) -> None:
    """Counted, not timed."""
    translation = read_text(bind("nozzle.temperature", "tip"), "tip = 205\n" + "s = M104 S205\n" * 1000)
    documents: tuple[Document, ...] = tuple(
        document._replace(text=Counting(document.text)) for document in translation.documents
    )
    Counting.copied = 0
    assert len(list(find_literals(translation._replace(documents=documents)))) == 1000
    assert Counting.copied <= 20 * len(documents[0].text)


def test_a_followed_temperature_is_written_in_thousandths(
    derived: Callable[..., Any], bind: Bind, rule: Callable[..., str]
) -> None:
    """No heater is finer, and a machine command is no place for a long row of figures."""
    lines = bind("nozzle.temperature", "heat", 'unit = "C"')
    hot = rule("nozzle.temperature", 'set = "420 °F"')
    made = derived("heat = 200.0000\nstart = M104 S200\n", lines, hot, follow_literals=True)
    assert made.outputs[0].decode().endswith("start = M104 S215.556\n")
