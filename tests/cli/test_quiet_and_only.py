"""--quiet, --only, edits by hand named by compare, and the sign of life for long work."""

import io
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from profilesmith.cli import progress
from profilesmith.workflows.demo import run_demo
from tests.shipped import version

Program = Callable[..., Any]


@pytest.fixture
def heron(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    run_demo(str(tmp_path / "heron"))
    monkeypatch.chdir(tmp_path / "heron")
    return tmp_path / "heron"


def test_quiet_prints_errors_only(heron: Path, program: Program) -> None:
    words = [
        "derive",
        "base.settings",
        "--keymap",
        "keymap.toml",
        "--recipe",
        "flexible-pla",
        "-o",
        "again.settings",
        "--quiet",
    ]
    ran = program(*words)
    assert (ran.code, ran.out, ran.err) == (0, "", "")
    assert (heron / "again.settings").is_file()
    again = program(*words)
    assert again.code == 2
    assert "exists already" in again.err


def test_a_quiet_demo_is_laid_out_all_the_same(tmp_path: Path, program: Program) -> None:
    ran = program("demo", tmp_path / "ibis", "-q")
    assert (ran.code, ran.out, ran.err) == (0, "", "")
    assert (tmp_path / "ibis" / "soft.settings").is_file()


def test_quiet_keeps_the_exit_code(heron: Path, program: Program) -> None:
    ran = program("compare", "base.settings", "soft.settings", "--keymap", "keymap.toml", "--exit-code", "-q")
    assert (ran.code, ran.out) == (1, "")


def test_only_one_group(heron: Path, program: Program) -> None:
    ran = program("compare", "base.settings", "soft.settings", "--keymap", "keymap.toml", "--only", "heat")
    assert ran.code == 0
    assert "nozzle.temperature" in ran.out
    assert "outer_wall.speed" not in ran.out
    group = program("compare", "base.settings", "soft.settings", "--keymap", "keymap.toml", "--only", "printing speeds")
    assert "outer_wall.speed" in group.out
    assert "retraction.speed  " not in group.out


def test_a_group_that_does_not_exist(heron: Path, program: Program) -> None:
    ran = program("compare", "base.settings", "soft.settings", "--keymap", "keymap.toml", "--only", "het")
    assert ran.code == 2
    assert "'heat'" in ran.err


def test_compare_names_the_rule_that_an_edit_overrules(heron: Path, program: Program) -> None:
    soft = heron / "soft.settings"
    soft.write_text(soft.read_text(encoding="utf-8").replace("feed = 2400", "feed = 2700"), encoding="utf-8")
    ran = program("compare", "base.settings", "soft.settings", "--keymap", "keymap.toml", "--as", "markdown")
    assert f"overrules flexible-pla {version('flexible-pla')}, rule 1" in ran.out.replace("\\", "")


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize(("quiet", "shown"), [(False, True), (True, False)])
def test_long_work_gives_a_sign_of_life(quiet: bool, shown: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    terminal = Terminal()
    monkeypatch.setattr(sys, "stderr", terminal)
    monkeypatch.setattr(progress, "PATIENCE", 0.01)
    monkeypatch.setattr(progress, "BEAT", 0.01)
    with progress.busy("deriving", quiet):
        time.sleep(0.3)
    assert ("deriving, 0 s" in terminal.getvalue()) is shown
    assert not shown or terminal.getvalue().endswith("\r"), "the line is wiped"


def test_short_work_says_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    terminal = Terminal()
    monkeypatch.setattr(sys, "stderr", terminal)
    with progress.busy("deriving"):
        pass
    assert terminal.getvalue() == ""
