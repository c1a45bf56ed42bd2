"""--quiet, --only, edits by hand named by compare, and the sign of life for long work."""

import io
import re
import sys
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from profilesmith.cli import terminal as printing
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
    """written: whether anything was."""

    def __init__(self) -> None:
        super().__init__()
        self.written = threading.Event()

    def isatty(self) -> bool:
        return True

    def write(self, text: str) -> int:
        self.written.set()
        return super().write(text)


def at_a_terminal(monkeypatch: pytest.MonkeyPatch) -> Terminal:
    """In the place of standard error, with somebody at it who sees a sign of life at once."""
    terminal = Terminal()
    monkeypatch.setattr(sys, "stderr", terminal)
    monkeypatch.setattr(printing, "PATIENCE", 0.01)
    monkeypatch.setattr(printing, "BEAT", 0.01)
    return terminal


def test_long_work_gives_a_sign_of_life(monkeypatch: pytest.MonkeyPatch) -> None:
    terminal = at_a_terminal(monkeypatch)
    with printing.busy("deriving"):
        assert terminal.written.wait(300)
    assert re.match(r"\rderiving, \d+ s", terminal.getvalue())
    assert terminal.getvalue().endswith("\r"), "the line is wiped"


def test_counted_work_tells_how_far_it_is(monkeypatch: pytest.MonkeyPatch) -> None:
    terminal = at_a_terminal(monkeypatch)
    with printing.counted("checking the library") as tell:
        tell(3, 1200)
        assert terminal.written.wait(300)
    assert re.match(r"\rchecking the library, 3 of 1,200, \d+ s", terminal.getvalue())
    assert terminal.getvalue().endswith("\r")


def test_quiet_work_says_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    terminal = at_a_terminal(monkeypatch)
    others = threading.active_count()
    with printing.busy("deriving", quiet=True):
        assert threading.active_count() == others, "nobody is there to say anything"
    assert terminal.getvalue() == ""


def test_short_work_says_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    terminal = at_a_terminal(monkeypatch)
    monkeypatch.setattr(printing, "PATIENCE", 300)
    with printing.busy("deriving"):
        pass
    assert terminal.getvalue() == ""
