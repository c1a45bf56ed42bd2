"""Help: short summaries, commands in groups, one example in each, and each example is a call that works."""

from __future__ import annotations

import json
import re
import shlex
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
import typer

from profilesmith.cli.app import program as build
from profilesmith.cli.grouped_help import TOPICS

Program = Callable[..., Any]
TOP = typer.main.get_command(build())
ORDER = """format = 1
[order]
name = "one"
keymap = "keymap.toml"
recipes = ["flexible-pla"]
out = "soft"
[[job]]
base = "base.settings"
"""


def commands(group: Any = TOP, words: tuple[str, ...] = ()) -> Iterator[tuple[str, Any]]:
    for name, command in group.commands.items():
        yield " ".join((*words, name)), command
        if hasattr(command, "commands"):
            yield from commands(command, (*words, name))


ALL = dict(commands())
LEAVES = {words: command for words, command in ALL.items() if not hasattr(command, "commands")}


def example(command: Any) -> str:
    lines = re.findall(r"Example:\n\s+(profilesmith .*)", command.help or "")
    assert len(lines) == 1, command.name
    return str(lines[0])


@pytest.mark.parametrize("words", ALL)
def test_summaries_are_short(words: str) -> None:
    summary = (ALL[words].help or "").partition("\n")[0]
    assert 0 < len(summary) <= 55
    assert summary.endswith(".")


def test_every_command_stands_in_one_group_of_the_help(program: Program) -> None:
    listed = [name for names in TOPICS.values() for name in names]
    assert sorted(listed) == sorted(TOP.commands)
    ran = program("--help")
    assert ran.code == 0
    assert [line for line in ran.out.splitlines() if line.rstrip(":") in TOPICS] == [f"{topic}:" for topic in TOPICS]
    assert "..." not in ran.out.partition("Start:")[2]


@pytest.mark.parametrize("words", LEAVES)
def test_every_command_shows_one_example_of_itself(words: str, program: Program) -> None:
    shown = example(LEAVES[words])
    assert shown.startswith(f"profilesmith {words}")
    assert shown in program(*words.split(), "--help").out


def test_the_examples_work_in_the_folder_of_the_demo(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, program: Program
) -> None:
    """From the demo's folder, in an order in which each finds what it needs; exit 1 says that something was found."""
    monkeypatch.chdir(tmp_path)
    assert program("demo", "heron", "-q").code == 0
    monkeypatch.chdir(tmp_path / "heron")
    Path("order.toml").write_text(ORDER, encoding="utf-8")
    first = [words for words in LEAVES if words in ("library new", "evidence add", "mend")]
    # The page of ``browser`` needs parts that npm builds once: tests/browser makes it.
    rest = (words for words in LEAVES if words not in (*first, "browser"))
    for words in [*first, *rest]:
        call = example(LEAVES[words])
        if words == "evidence withdraw":  # each record has an id of its own
            record = next(Path("club/evidence").glob("*.jsonl")).read_text(encoding="utf-8").splitlines()[-1]
            call = call.replace("3f2a", json.loads(record)["id"])
        ran = program(*shlex.split(call)[1:])
        assert ran.code in (0, 1), f"{words}: {ran.err}"


@pytest.mark.parametrize("words", LEAVES)
def test_every_command_can_be_quiet(words: str) -> None:
    assert any("-q" in item.opts for item in LEAVES[words].params)


def test_a_quiet_command_prints_nothing_and_the_next_one_speaks_again(program: Program) -> None:
    assert (program("vocabulary", "stringing", "-q").out, program("guide", "-q").out) == ("", "")
    assert program("vocabulary", "stringing").out
    assert program("vocabulary", "strnging", "-q").err


def test_a_call_that_is_not_understood_is_told_with_an_example(program: Program) -> None:
    ran = program("check", "base.settings", "--recipe", "x")
    assert ran.code == 2
    assert "It is an option of: derive, " in ran.err
    assert "Such as: profilesmith check base.settings" in ran.err


@pytest.mark.parametrize(("command", "here"), [("review", True), ("check", True), ("guide", False)])
def test_a_report_asked_of_a_command_that_only_shows_is_told_how(program: Program, command: str, here: bool) -> None:
    ran = program(command, "x", "--report", "page.html")
    assert ran.code == 2
    assert ("--as html > page.html" in ran.err) == here


@pytest.mark.parametrize(
    ("call", "near"),
    [
        (("revew",), "Did you mean 'review'?"),
        (("keymap", "sugest"), "Did you mean 'suggest'?"),
        (("derive", "x", "--recpe", "y"), "(Possible options: --recipe)"),
        (("glue",), ""),
        (("keymap", "glue"), ""),
        (("derive", "x", "--cord", "y"), ""),
    ],
)
def test_only_a_name_that_is_like_it_is_offered_for_an_unknown_command_or_option(
    call: tuple[str, ...], near: str, program: Program
) -> None:
    first = program(*call).err.partition("Error: ")[2].partition("\n")[0]
    assert first.startswith("No such ")
    assert near in first
    assert bool(near) == ("Did you mean" in first or "Possible options" in first)
