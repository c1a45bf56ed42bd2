"""Exit codes: 0 done, 1 differences or cautions, 2 wrong input or call, 3 conflict or refusal, 130 stopped.

What the program prints goes to standard output, what it has to say about itself to standard error.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Program = Callable[..., Any]
MAP = (
    'format = 1\n[keymap]\nname = "m"\n[[binding]]\nsetting = "outer_wall.speed"\nkey = "rim"\n'
    '[[binding]]\nsetting = "nozzle.temperature"\nkey = "tip"\n'
)
RECIPE = (
    'format = 1\n[recipe]\nname = "slow"\nversion = "1.0.0"\n[[rule]]\n'
    'setting = "outer_wall.speed"\ncap = "40 mm/s"\nwhy = "test"\n'
)
EXAMPLE = '[[example]]\ngiven = { "outer_wall.speed" = "80 mm/s" }\nexpect = { "outer_wall.speed" = "40 mm/s" }\n'


@pytest.fixture(autouse=True)
def files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    Path("base.cfg").write_text("rim = 80\ntip = 205\n")
    Path("other.cfg").write_text("rim = 60\ntip = 205\n")
    Path("map.toml").write_text(MAP)
    Path("slow.toml").write_text(RECIPE + EXAMPLE)
    Path("wrong.toml").write_text(RECIPE + EXAMPLE.replace('"40 mm/s"', '"41 mm/s"'))
    Path("torn.toml").write_text(RECIPE + '[[rule]]\nsetting = "outer_wall.speed"\nraise_to = "50 mm/s"\n')
    Path("bad.toml").write_text("format = 1\n[recipe\n")
    return tmp_path


ON_BASE = ["base.cfg", "--keymap", "map.toml"]


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (["--help"], 0),
        (["--version"], 0),
        (["derive", "--help"], 0),
        (["recipe", "--help"], 0),
        (["vocabulary"], 0),
        (["vocabulary", "raft"], 0),
        (["vocabulary", "xyzzy"], 2),
        (["derive", *ON_BASE], 2),
        (["derive", *ON_BASE, "--recipe", "slow.toml", "--start-block", "keep"], 0),
        (["derive", *ON_BASE, "--recipe", "slow.toml", "--start-block", "perhaps"], 2),
        (["derive", *ON_BASE, "--recipe", "slow.toml", "--shares", "follow"], 0),
        (["derive", *ON_BASE, "--recipe", "slow.toml", "--shares", "perhaps"], 2),
        (["derive", *ON_BASE, "--recipe", "slow.toml"], 0),
        (["derive", *ON_BASE, "--recipe", "slow.toml", "-o", "out.cfg"], 0),
        (["derive", *ON_BASE, "--recipe", "torn.toml"], 3),
        (["derive", *ON_BASE, "--recipe", "torn.toml", "-o", "out.cfg"], 3),
        (["derive", *ON_BASE, "--recipe", "bad.toml"], 2),
        (["derive", "none.cfg", "--keymap", "map.toml"], 2),
        (["derive", *ON_BASE, "--as", "smoke"], 2),
        (["derive", *ON_BASE, "--report", "r.xyz"], 2),
        (["derive"], 2),
        (["derive", "base.cfg"], 2),
        (["derive", *ON_BASE, "--no-such-option"], 2),
        (["nonsense"], 2),
        (["compare", "base.cfg", "other.cfg", "--keymap", "map.toml"], 0),
        (["compare", "base.cfg", "other.cfg", "--keymap", "map.toml", "--exit-code"], 1),
        (["compare", "base.cfg", "base.cfg", "--keymap", "map.toml", "--exit-code"], 0),
        (["compare", "base.cfg", "none.cfg", "--keymap", "map.toml", "--exit-code"], 2),
        (["explain", "outer_wall.speed", *ON_BASE, "--recipe", "slow.toml"], 0),
        (["explain", "outer_wall.sped", *ON_BASE], 2),
        (["explain", "outer_wall.speed", *ON_BASE, "--recipe", "torn.toml"], 0),
        (["keymap", "check", "map.toml", "base.cfg"], 0),
        (["keymap", "check", "bad.toml", "base.cfg"], 2),
        (["recipe", "list"], 0),
        (["recipe", "show", "slow.toml"], 0),
        (["recipe", "show", "bad.toml"], 2),
        (["recipe", "show", "none"], 2),
        (["recipe", "check", "slow.toml"], 0),
        (["recipe", "check", "wrong.toml"], 1),
        (["recipe", "check", "bad.toml"], 2),
        (["recipe", "check", "slow.toml", "wrong.toml", "bad.toml"], 2),
        (["recipe", "check"], 0),
    ],
)
def test_exit_codes(words: list[str], code: int, program: Program) -> None:
    ran = program(*words)
    assert ran.code == code, ran.err
    assert bool(ran.out.strip()) or code != 0
    if code in (2, 3):
        assert "error" in (ran.err + ran.out).lower() or "usage" in ran.err.lower() or "not valid" in ran.out


def test_without_words_the_program_tells_its_commands(program: Program) -> None:
    ran = program()
    assert ran.code in (0, 2)
    assert [
        word
        for word in ("demo", "derive", "compare", "explain", "vocabulary", "recipe", "keymap")
        if word not in ran.out + ran.err
    ] == []


def test_a_dry_run_writes_nothing(program: Program) -> None:
    before = sorted(path.name for path in Path().iterdir())
    ran = program("derive", *ON_BASE, "--recipe", "slow.toml", "-o", "out.cfg", "--dry-run")
    assert ran.code == 0
    assert "nothing was written" in ran.err
    assert sorted(path.name for path in Path().iterdir()) == before


def test_a_conflict_writes_nothing_and_is_told_once(program: Program) -> None:
    ran = program("derive", *ON_BASE, "--recipe", "torn.toml", "-o", "out.cfg")
    assert not Path("out.cfg").exists()
    assert ran.out.count("cannot both hold") == 1
    assert ran.err == "error: 1 conflict: nothing was written.\n"


def test_standard_output_is_the_review_alone(program: Program) -> None:
    ran = program("derive", *ON_BASE, "--recipe", "slow.toml", "-o", "out.cfg", "--as", "json")
    assert json.loads(ran.out)["derived"]["outer_wall.speed"] == 40
    assert "wrote out.cfg" in ran.err


@pytest.mark.parametrize(
    ("report", "head"), [("review.md", "# "), ("review.json", "{"), ("review.txt", ""), ("review.html", "<!")]
)
def test_reports(report: str, head: str, program: Program) -> None:
    assert program("derive", *ON_BASE, "--recipe", "slow.toml", "--report", report).code == 0
    text = Path(report).read_text(encoding="utf-8")
    assert text.lstrip().startswith(head)
    assert "40" in text


def test_overwrite_is_asked_for(program: Program) -> None:
    words = ["derive", *ON_BASE, "--recipe", "slow.toml", "-o", "out.cfg"]
    assert program(*words).code == 0
    assert (program(*words).code, program(*words).codes) == (2, ("exists",))
    assert program(*words, "--overwrite").code == 0


def test_a_fault_of_ours_is_told_as_one(program: Program, monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(*given: object) -> None:
        raise RuntimeError("made for this test")

    monkeypatch.setattr("profilesmith.reports.vocabulary.whole_vocabulary", fail)
    ran = program("vocabulary")
    assert ran.code == 70
    assert "profilesmith has a fault: RuntimeError: made for this test" in ran.err
    assert "report it" in ran.err


def test_a_contributor_gets_the_traceback(monkeypatch: pytest.MonkeyPatch) -> None:
    import sys

    from profilesmith.cli.app import main

    def fail(*given: object) -> None:
        raise RuntimeError("made for this test")

    monkeypatch.setattr("profilesmith.reports.vocabulary.whole_vocabulary", fail)
    monkeypatch.setenv("PROFILESMITH_TRACEBACK", "1")
    monkeypatch.setattr(sys, "argv", ["profilesmith", "vocabulary"])
    with pytest.raises(RuntimeError, match="made for this test"):
        main()


def test_ctrl_c_inside_a_command(program: Program, monkeypatch: pytest.MonkeyPatch) -> None:
    def stop(*given: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("profilesmith.reports.vocabulary.whole_vocabulary", stop)
    assert program("vocabulary").code == 130
