"""From three pairs on a condition on a fact competes; what no recipe can set is not learnt."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Program = Callable[..., Any]
MAP = """format = 1
[keymap]
name = "b"
[[binding]]
setting = "retraction.distance"
key = "pull"
unit = "mm"
[[binding]]
setting = "outer_wall.speed"
key = "rim"
unit = "mm/s"
[[binding]]
setting = "nozzle.diameter"
key = "bore"
unit = "mm"
"""
PAIRS = (("6", "4", "80"), ("3", "1.5", "60"), ("2.5", "1.5", "70"))  # of a tube, and of two direct drives


@pytest.fixture(autouse=True)
def files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("map.toml").write_text(MAP)
    for drive in ("remote", "direct"):
        Path(f"{drive}.toml").write_text(f'format = 1\n[machine]\ndrive = "{drive}"\n')


def distil(program: Program, bore: str = "0.4") -> Any:
    words: list[str] = []
    for number, (base, tuned, rim) in enumerate(PAIRS):
        Path(f"{number}.cfg").write_text(f"pull = {base}\nrim = {rim}\nbore = 0.4\n")
        Path(f"{number}-tuned.cfg").write_text(f"pull = {tuned}\nrim = 40\nbore = {bore}\n")
        words += ["--pair", f"{number}.cfg", f"{number}-tuned.cfg"]
    facts = ("--facts", "1=remote.toml", "--facts", "2,3=direct.toml")
    return program("distil", *words, *facts, "--keymap", "map.toml", "-o", "r.toml")


def test_a_tube_and_two_direct_drives_are_told_by_their_drive(program: Program) -> None:
    ran = distil(program)
    assert ran.code == 0, ran.err
    recipe = Path("r.toml").read_text(encoding="utf-8")
    rule = recipe[recipe.index('setting = "retraction.distance"') :].partition("\n\n")[0]
    assert 'cap = "1.5 mm"' in rule
    assert 'when = {"machine.drive" = "direct"}' in rule
    assert "cannot be laid" not in " ".join(ran.out.split())
    Path("tube.cfg").write_text("pull = 6\nrim = 80\nbore = 0.4\n")
    call = ("derive", "tube.cfg", "--keymap", "map.toml", "--recipe", "r.toml", "--facts", "remote.toml")
    assert program(*call, "-o", "out.cfg", "-q").code == 0
    assert Path("out.cfg").read_text() == "pull = 6\nrim = 40\nbore = 0.4\n"


def test_a_bore_is_no_rule(program: Program) -> None:
    ran = distil(program, bore="0.6")
    assert ran.code == 0, ran.err
    assert 'setting = "nozzle.diameter"' not in Path("r.toml").read_text(encoding="utf-8")
    assert "a nozzle is changed by hand" in " ".join(ran.out.split())
