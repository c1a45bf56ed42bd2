"""Texts of several tools: one carries the soft filament, the others stay; what all share is said first."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Program = Callable[..., Any]
TEXT = "wall = 80\nheat = 230/225\nlayer = 0.2\n"
MAP = """format = 1
[keymap]
name = "two"
[[binding]]
setting = "outer_wall.speed"
key = "wall"
[[binding]]
setting = "nozzle.temperature"
key = "heat"
tools = true
list = "/"
"""


@pytest.fixture
def order(tmp_path: Path) -> tuple[object, ...]:
    (tmp_path / "two.cfg").write_text(TEXT)
    (tmp_path / "map.toml").write_text(MAP)
    return ("derive", tmp_path / "two.cfg", "--keymap", tmp_path / "map.toml", "--recipe", "flexible-pla")


@pytest.mark.parametrize(("tool", "heat"), [(1, "215/225"), (2, "230/215")])
def test_the_other_tools_stay(
    program: Program, order: tuple[object, ...], tmp_path: Path, tool: int, heat: str
) -> None:
    made = program(*order, "--tools", tool, "-o", tmp_path / "soft.cfg")
    assert made.code == 0
    assert (tmp_path / "soft.cfg").read_text() == f"wall = 40\nheat = {heat}\nlayer = 0.2\n"
    first = " ".join(made.out.split("Look first")[1].split("Changes")[0].split())
    assert f"1 setting changed for tool {tool} of 2 alone, but 1 setting that has one value for all tools" in first
    assert "changed for all of them: outer_wall.speed" in first
    assert f"fix: print what does not need tool {tool} from the text as it was" in first


def test_without_an_answer_all_are_changed_and_that_is_said_first(
    program: Program, order: tuple[object, ...], tmp_path: Path
) -> None:
    made = program(*order, "-o", tmp_path / "soft.cfg")
    assert "heat = 215/215" in (tmp_path / "soft.cfg").read_text()
    first, fix = made.out.split("Look first")[1].split("\n")[1:3]
    assert "All 2 tools were changed, since nobody said which of them carries the spool" in first
    assert "--tools N" in fix


def test_the_ledger_remembers_the_tool(program: Program, order: tuple[object, ...], tmp_path: Path) -> None:
    soft, again, newer = (tmp_path / name for name in ("soft.cfg", "again.cfg", "newer.cfg"))
    program(*order, "--tools", "2", "-o", soft, "-q")
    newer.write_text(TEXT.replace("230/225", "235/228"))
    assert program("rederive", soft, "--onto", newer, "-o", again, "-q").code == 0
    assert "heat = 235/215" in again.read_text()
    shown = program("review", soft).out
    assert "1 setting changed for tool 2 of 2 alone" in shown


def test_a_tool_that_is_not_there_is_a_conflict(program: Program, order: tuple[object, ...], tmp_path: Path) -> None:
    made = program(*order, "--tools", "3", "-o", tmp_path / "soft.cfg")
    assert made.code == 3
    assert "The text has 2 tools, the facts name tool 3." in made.out + made.err
    assert not (tmp_path / "soft.cfg").exists()


def test_facts_may_say_it_and_one_tool_needs_no_answer(
    program: Program, order: tuple[object, ...], tmp_path: Path
) -> None:
    facts = tmp_path / "spool.toml"
    facts.write_text('format = 1\n[spool]\ntool = "1"\n')
    data = json.loads(program(*order, "--facts", facts, "--dry-run", "--as", "json").out)
    row = next(row for row in data["rows"] if row["setting"] == "nozzle.temperature")
    assert "225" in json.dumps(row["derived"])
    assert "215" in json.dumps(row["derived"])
    (tmp_path / "two.cfg").write_text(TEXT.replace("230/225", "230"))
    assert "tools were changed" not in program(*order, "--dry-run").out


class _Always:
    def isatty(self) -> bool:
        return True


class _Terminal:
    stdin = stderr = _Always()


@pytest.mark.parametrize(("said", "heat"), [([1], "215/225"), ([2], "230/215"), ([0], "215/215"), ([7, 2], "230/215")])
def test_on_a_terminal_it_is_asked(
    said: list[int],
    heat: str,
    program: Program,
    order: tuple[object, ...],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """A number that is no tool is asked again; no question where somebody said it, or where nobody would see it."""
    asked: list[str] = []

    def prompt(question: str, **_: Any) -> int:
        asked.append(question)
        return said[len(asked) - 1]

    monkeypatch.setattr("typer.prompt", prompt)
    monkeypatch.setattr("profilesmith.cli.asked.sys", _Terminal)
    made = program(*order, "-o", tmp_path / "soft.cfg")
    assert asked == ["Which tool carries the spool? (1 to 2, 0 for all)"] * len(said)
    assert "change nozzle.temperature for all of them" in made.err
    assert "which share them: outer_wall.speed" in made.err
    assert (tmp_path / "soft.cfg").read_text() == f"wall = 40\nheat = {heat}\nlayer = 0.2\n"
    for more in (("-q",), ("--dry-run",), ("--as", "json"), ("--tools", "1")):
        program(*order, "-o", tmp_path / "soft.cfg", "--overwrite", *more)
    assert len(asked) == len(said)
