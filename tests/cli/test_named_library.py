"""A library that is named and is none is an error in every command that takes one: the whole program is walked."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.cli.test_help import LEAVES

Program = Callable[..., Any]
OPTION = {
    words: command for words, command in LEAVES.items() if any("--library" in item.opts for item in command.params)
}
ARGUMENT = {
    words: command
    for words, command in LEAVES.items()
    if any("PROFILESMITH_LIBRARY" in (getattr(item, "help", "") or "") for item in command.params)
    and words not in OPTION
}
NONE = ("nothing", "a file", "an empty folder", "a folder of other things")


@pytest.fixture(params=NONE)
def clubb(request: pytest.FixtureRequest, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    """The name of a library that is none, in the folder that the call is made in."""
    monkeypatch.chdir(tmp_path)
    if request.param == "a file":
        Path("clubb").write_text("x")
    elif request.param != "nothing":
        Path("clubb").mkdir()
        if request.param == "a folder of other things":
            Path("clubb/notes").mkdir()
            Path("clubb/base.cfg").write_text("rim = 60\n")
    return "clubb"


def needed(command: Any) -> list[str]:
    """Words for all that a command cannot be called without; they are never come to."""
    words: list[str] = []
    for item in command.params:
        if item.required:
            value = "1" if item.type.name in ("integer", "float") else "x"
            words += [value] if item.param_type_name == "argument" else [item.opts[0], value]
    return words


def refused(ran: Any, said: str, before: list[Path]) -> None:
    assert (ran.code, ran.codes) == (2, ("no-library",)), ran.err
    assert said in ran.err
    assert "'clubb'" in ran.err
    assert "library new" in ran.err  # what to do
    assert ran.out == ""
    assert sorted(Path().rglob("*")) == before


def test_the_walk_comes_to_all_commands() -> None:
    assert {"derive", "evidence add", "evidence list", "recipe list", "mend", "batch", "rederive"} <= set(OPTION)
    assert {"library check", "library list", "library page"} <= set(ARGUMENT)


@pytest.mark.parametrize("words", OPTION)
def test_by_option(words: str, clubb: str, program: Program) -> None:
    before = sorted(Path().rglob("*"))
    refused(program(*words.split(), "--library", clubb, *needed(OPTION[words])), "--library", before)


@pytest.mark.parametrize("words", [*OPTION, "vocabulary"])
def test_by_environment(words: str, clubb: str, program: Program, monkeypatch: pytest.MonkeyPatch) -> None:
    before = sorted(Path().rglob("*"))
    monkeypatch.setenv("PROFILESMITH_LIBRARY", clubb)
    more = needed(LEAVES[words]) or ["buckling"]
    refused(program(*words.split(), *more[: len(more) if words in OPTION else 1]), "PROFILESMITH_LIBRARY", before)


@pytest.mark.parametrize("by_argument", [True, False], ids=["argument", "environment"])
@pytest.mark.parametrize("words", ARGUMENT)
def test_of_commands_for_a_whole_library(
    words: str, by_argument: bool, clubb: str, program: Program, monkeypatch: pytest.MonkeyPatch
) -> None:
    if not by_argument:
        monkeypatch.setenv("PROFILESMITH_LIBRARY", clubb)
    ran = program(*words.split(), *([clubb] if by_argument else []), *needed(ARGUMENT[words]))
    assert ran.code == 2, ran.err
    assert ran.codes
    assert set(ran.codes) <= {"no-library", "no-folder"}
    assert "clubb" in ran.err
    assert "library new" in ran.err
