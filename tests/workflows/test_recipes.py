"""Recipes listed, shown and checked: the commands that the texts name work as they stand, and count in words."""

from __future__ import annotations

import re
import shlex
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from profilesmith.review.render.command import command
from profilesmith.workflows.library.new_library import new_library

Program = Callable[..., Any]
NAMED = re.compile(r"'profilesmith (.*)' (?:shows each print|runs them)\.")
ONE = 'format = 1\n[recipe]\nname = "one"\nversion = "1.0.0"\n[[rule]]\nsetting = "wall.count"\ncap = "2"\n'
EXAMPLE = '[[example]]\ngiven = { "wall.count" = "3" }\nexpect = { "wall.count" = "2" }\n'


@pytest.fixture(params=["club", "our club"])
def club(request: pytest.FixtureRequest, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    monkeypatch.delenv("PROFILESMITH_LIBRARY", raising=False)
    monkeypatch.chdir(tmp_path)
    new_library(Path(request.param), "", "CC0-1.0")
    return str(request.param)


def test_commands_that_are_named_work(club: str, program: Program) -> None:
    base = f"{club}/profiles/example-sheet.settings"
    assert (
        program(
            "evidence",
            "add",
            "example-gentle",
            "--base",
            base,
            "--keymap",
            "example-sheet",
            "--outcome",
            "worked",
            "--library",
            club,
        ).code
        == 0
    )
    shown = program("recipe", "show", "example-gentle", "--library", club).out
    named = NAMED.findall(shown)
    assert len(named) == 2, shown
    for words in named:
        ran = program(*shlex.split(words))
        assert (ran.code, ran.codes) == (0, ()), words
        assert "example-gentle" in ran.out


def test_a_recipe_that_cannot_be_read_names_a_command_that_says_why(club: str, program: Program) -> None:
    Path(club, "recipes", "broken.toml").write_text("format = 1\n")
    for words in (
        ("recipe", "list", "--library", club),
        ("library", "list", club),
        ("library", "page", club, "-o", "pages"),
    ):
        ran = program(*words)
        line = next(line for line in (ran.out + ran.err).splitlines() if "broken" in line)
        told = program(*shlex.split(line.partition("'profilesmith ")[2].removesuffix(" says why)").removesuffix("'")))
        assert told.code > 0
        assert "broken.toml" in told.out
        assert told.codes == ()


def test_a_file_is_named_as_it_was(tmp_path: Path, program: Program, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("one.toml").write_text(ONE + EXAMPLE)
    assert program("recipe", "show", "one.toml").out.endswith(
        "1 example; 'profilesmith recipe check one.toml' runs it.\n"
    )
    assert program("recipe", "check", "one.toml").out.startswith("one 1.0.0: 1 rule, 1 of 1 examples pass")
    Path("one.toml").write_text(ONE)
    assert program("recipe", "show", "one.toml").out.endswith("\nNo examples.\n")


def test_words_for_a_shell() -> None:
    """What the shell makes of it is what was given (``shlex`` as outside judge)."""
    assert command("recipe check", "a") == "profilesmith recipe check a"
    text = command("recipe check", "it's; rm", library=Path("our club"))
    assert shlex.split(text) == ["profilesmith", "recipe", "check", "it's; rm", "--library", "our club"]
    assert command("library check", None) == "profilesmith library check"
