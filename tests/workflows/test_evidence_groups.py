"""Evidence by machine and spool, withdrawn prints, and the same call twice within a minute.

Outside check: exact limits of Clopper and Pearson as in NIST's e-Handbook 7.2.4.1 are held in tests/evidence.
"""

from __future__ import annotations

import json
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Program = Callable[..., Any]
MAP = 'format = 1\n[keymap]\nname = "m"\n[[binding]]\nsetting = "outer_wall.speed"\nkey = "rim"\n'
RECIPE = (
    'format = 1\n[recipe]\nname = "{0}"\nversion = "1.0.0"\n'
    '[[rule]]\nsetting = "outer_wall.speed"\ncap = "40 mm/s"\nwhy = "test"\n'
)
FACTS = (
    'format = 1\n[machine]\ndrive = "{}"\nnozzle_diameter = "{}"\n[spool]\nmaterial = "flexible PLA"\nhardness = "{}"\n'
)


@pytest.fixture(autouse=True)
def files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("club/recipes").mkdir(parents=True)
    for name in ("slow", "slower"):
        Path(f"club/recipes/{name}.toml").write_text(RECIPE.format(name))
    Path("base.cfg").write_text("rim = 80\n")
    Path("map.toml").write_text(MAP)


def add(
    program: Program, facts: tuple[str, str, str], outcome: str, *more: str, recipes: tuple[str, ...] = ("slow",)
) -> Any:
    Path("facts.toml").write_text(FACTS.format(*facts))
    call = ("--base", "base.cfg", "--keymap", "map.toml", "--facts", "facts.toml", "--library", "club")
    return program("evidence", "add", *recipes, *call, "--outcome", outcome, "--date", "2024-01-31", *more)


def club(program: Program, *words: str) -> Any:
    return program("evidence", *words, "--library", "club")


def test_prints_are_told_by_machine_and_by_spool(program: Program) -> None:
    bench, tube = ("direct", "0.4 mm", "92 Shore A"), ("remote", "0.6 mm", "85 Shore A")
    for outcome in ("worked", "worked", "failed"):
        assert add(program, bench, outcome, "--again").code == 0
    for outcome in ("worked", "partly"):
        assert add(program, tube, outcome, "--again", recipes=("slow", "slower")).code == 0
    shown = club(program, "list", "--by", "machine").out.splitlines()
    assert shown[0] == "direct drive, 0.4 mm nozzle: 2 of 3 worked (9 % to 100 %)"
    assert shown[1] == "  slow 1.0.0: 2 of 3 worked"
    assert shown[2] == "drive through a tube, 0.6 mm nozzle: 1 of 2 worked, too few to tell (1 % to 99 %)"
    assert shown[3:5] == ["  slow 1.0.0: 1 of 2 worked", "  slower 1.0.0: 1 of 2 worked"]
    assert "no fair sample" in shown[5]
    spools = json.loads(club(program, "list", "--by", "spool", "--as", "json").out)
    assert [(item["what"], item["tried"], item["worked"]) for item in spools] == [
        ("flexible PLA, 90 to 99 Shore A", 3, 2),
        ("flexible PLA, 80 to 89 Shore A", 2, 1),
    ]
    assert "machine: direct drive, 0.4 mm nozzle: 2 of 3 worked" in club(program, "list", "slow").out
    Path("club/library.toml").write_text('format = 1\n[library]\nname = "club"\nlicence = "CC0-1.0"\n')
    assert program("library", "page", "club", "-o", "pages").code in (0, 1)
    assert "drive through a tube, 0.6 mm nozzle: 1 of 2 worked" in Path("pages/slow.html").read_text(encoding="utf-8")
    assert club(program, "list", "--by", "moon").code == 2


def test_a_withdrawn_print_counts_no_more_and_both_records_stay(program: Program) -> None:
    assert add(program, ("direct", "0.4 mm", "92 Shore A"), "worked", recipes=("slow", "slower")).code == 0
    path = Path("club/evidence/slow.jsonl")
    first = path.read_bytes()
    word = json.loads(first)["id"][:8]
    assert word in club(program, "list", "slow").out
    ran = club(program, "withdraw", word, "--why", "It was another spool.", "--by", "A keeper")
    assert ran.code == 0, ran.err
    assert "slow (slow.jsonl) and slower (slower.jsonl)" in ran.out
    assert path.read_bytes().startswith(first)
    for name in ("slow", "slower"):
        shown = club(program, "list", name).out
        assert "Not tried yet" in shown
        assert "not counted: It was another spool. (A keeper)" in shown
    data = json.loads(club(program, "list", "slow", "--as", "json").out)[0]
    assert data["withdrawn"][0]["withdrawn"]["why"] == "It was another spool."
    again = club(program, "withdraw", word, "--why", "Once more.")
    assert again.code == 2
    assert "already" in again.err


@pytest.mark.parametrize(("word", "why"), [("abc", "x"), ("0000", "x"), ("", "x")])
def test_what_cannot_be_withdrawn(word: str, why: str, program: Program) -> None:
    assert add(program, ("direct", "0.4 mm", "92 Shore A"), "worked").code == 0
    before = Path("club/evidence/slow.jsonl").read_bytes()
    assert club(program, "withdraw", word, "--why", why).code == 2
    assert club(program, "withdraw", json.loads(before)["id"], "--why", " ").code == 2
    assert Path("club/evidence/slow.jsonl").read_bytes() == before


def test_the_same_call_twice_within_a_minute_needs_again(program: Program) -> None:
    print_of = (("direct", "0.4 mm", "92 Shore A"), "worked")
    assert add(program, *print_of).code == 0
    second = add(program, *print_of)
    assert second.code == 2
    assert "--again" in second.err
    path = Path("club/evidence/slow.jsonl")
    assert path.read_bytes().count(b"\n") == 1
    assert add(program, *print_of, "--again").code == 0
    assert path.read_bytes().count(b"\n") == 2
    assert add(program, print_of[0], "failed").code == 0  # another print
    os.utime(path, (1, 1))
    assert add(program, print_of[0], "failed").code == 0  # the next day
