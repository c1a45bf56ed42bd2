"""What becomes of start blocks: by an option, by a question on a terminal, and left as they are elsewhere."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Program = Callable[..., Any]
BASE = "tip = 205\nstart = M104 S205\n"
ON_BASE = ("derive", "base.cfg", "--keymap", "map.toml", "--recipe", "hot.toml", "-o", "out.cfg")


@pytest.fixture
def files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, bind: Callable[..., str], rule: Callable[..., str]) -> Path:
    monkeypatch.chdir(tmp_path)
    Path("base.cfg").write_text(BASE)
    Path("map.toml").write_text("format = 1\n" + bind("nozzle.temperature", "tip"))
    hot = rule("nozzle.temperature", 'set = "215 °C"')
    Path("hot.toml").write_text(f'format = 1\n[recipe]\nname = "hot"\nversion = "1.0.0"\n{hot}', encoding="utf-8")
    return tmp_path


@pytest.mark.parametrize(
    ("more", "number"),
    [(("--start-block", "follow"), 215), (("--start-block", "keep"), 205), ((), 205), (("--follow-literals",), 215)],
)
def test_by_an_option(more: tuple[str, ...], number: int, files: Path, program: Program) -> None:
    ran = program(*ON_BASE, *more)
    assert ran.code == 0
    assert Path("out.cfg").read_text() == f"tip = 215\nstart = M104 S{number}\n"
    assert ("--start-block follow" in ran.out) is (number == 205)


@pytest.mark.parametrize(("answer", "number"), [(True, 215), (False, 205)])
def test_by_a_question_on_a_terminal(
    answer: bool, number: int, files: Path, program: Program, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[str] = []

    def confirm(question: str, **_: Any) -> bool:
        asked.append(question)
        return answer

    monkeypatch.setattr("typer.confirm", confirm)
    monkeypatch.setattr("profilesmith.cli.asked.sys", _Terminal)
    ran = program(*ON_BASE)
    assert len(asked) == 1
    assert "M104 heats to 205 °C" in ran.err
    assert Path("out.cfg").read_text() == f"tip = 215\nstart = M104 S{number}\n"
    for more in (("-q",), ("--dry-run",), ("--as", "json"), ("--start-block", "keep")):
        assert program(*ON_BASE, "--overwrite", *more).code == 0
    assert len(asked) == 1


class _Always:
    def isatty(self) -> bool:
        return True


class _Terminal:
    stdin = stderr = _Always()


def test_without_a_recipe_the_recipes_are_named(files: Path, program: Program) -> None:
    ran = program("derive", "base.cfg", "--keymap", "map.toml", "-o", "out.cfg")
    assert ran.code == 2
    assert "flexible-pla" in ran.err
    assert not Path("out.cfg").exists()
    assert sys.stdin is not _Terminal.stdin
