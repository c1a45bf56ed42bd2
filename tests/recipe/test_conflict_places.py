"""Where the sides of a conflict stand: a rule of the user's own file by its line, one that ships by its number."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.shipped import version

Program = Callable[..., Any]
FAST = 'format = 1\n[recipe]\nname = "fast"\nversion = "1.0.0"\n[[rule]]\n{}\nwhy = "test"\n'


@pytest.fixture(autouse=True)
def heron(program: Program, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert program("demo", tmp_path / "heron", "-q").code == 0
    monkeypatch.chdir(tmp_path / "heron")


def derive(program: Program, rule: str, *more: str) -> Any:
    Path("fast.toml").write_text(FAST.format(rule), encoding="utf-8")
    call = ("derive", "base.settings", "--keymap", "keymap.toml", "--recipe", "flexible-pla", "--recipe", "fast.toml")
    return program(*call, "--facts", "machine.toml", "--facts", "spool.toml", *more)


HOT = 'setting = "nozzle.temperature"\nraise_to = "230 °C"'


@pytest.mark.parametrize("form", ["terminal", "md", "json", "html"])
def test_both_sides_are_named_and_no_path_of_the_package(program: Program, form: str) -> None:
    ran = derive(program, HOT, "-o", "out.settings", "--as", form)
    assert ran.code == 3
    text = ran.out.replace("\\", "")
    assert "fast.toml:5" in text
    assert f"flexible-pla {version('flexible-pla')}, rule 5" in " ".join(text.split())
    for hidden in ("shipped/", "site-packages", str(Path(__file__).parents[2])):
        assert hidden not in ran.out + ran.err


@pytest.mark.parametrize("form", ["terminal", "md", "html"])
def test_what_the_review_shows_is_not_told_again(program: Program, form: str) -> None:
    assert derive(program, HOT, "-o", "out.settings", "--as", form).err == "error: 1 conflict: nothing was written.\n"


def test_the_fix_names_what_to_leave_out_and_the_line_to_change(program: Program) -> None:
    out = " ".join(derive(program, HOT).out.split())
    assert "fix: Leave out flexible-pla or fast, or change fast.toml:5; nothing was written." in out


def test_leaving_it_out_mends_it(program: Program) -> None:
    call = ("derive", "base.settings", "--keymap", "keymap.toml", "--recipe", "flexible-pla", "-o", "out.settings")
    assert program(*call, "--facts", "machine.toml", "--facts", "spool.toml").code == 0


def test_a_report_is_written_all_the_same_and_says_that_nothing_was(program: Program) -> None:
    ran = derive(program, HOT, "-o", "out.settings", "--report", "review.html", "--report", "review.md")
    assert ran.code == 3
    assert not Path("out.settings").exists()
    for name in ("review.html", "review.md"):
        assert "nothing was written" in Path(name).read_text(encoding="utf-8")
        assert f"wrote {name}" in ran.err


def test_a_machine_limit_is_named_with_its_place(program: Program) -> None:
    Path("fast.toml").write_text(FAST.format(HOT.replace("230", "280")), encoding="utf-8")
    call = ("derive", "base.settings", "--keymap", "keymap.toml", "--recipe", "fast.toml", "--facts", "machine.toml")
    out = " ".join(program(*call).out.split())
    assert "machine limit" in out
    assert "machine.toml:" in out
    assert "fix: Leave out fast, or change fast.toml:5 to at most 240 °C; nothing was written." in out
