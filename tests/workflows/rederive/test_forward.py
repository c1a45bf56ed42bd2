"""Many derived files brought forward in one run: nothing lost, one screen for all, whole or absent, staleness by
facts and maps.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from profilesmith.workflows.derive import derive, write
from profilesmith.workflows.request import Request

MAP = """format = 1
[keymap]
name = "bench"
[[binding]]
setting = "outer_wall.speed"
key = "rim"
[[binding]]
setting = "infill.density"
key = "share"
[[binding]]
setting = "nozzle.temperature"
key = "heat"
"""
RECIPE = """format = 1
[recipe]
name = "slow"
version = "1.0.0"
title = "Slow"
[[rule]]
setting = "printing speeds"
cap = "40 mm/s"
why = "test"
[[rule]]
setting = "nozzle.temperature"
cap = { fact = "machine.maximum_nozzle_temperature" }
why = "test"
"""
DESK = 'format = 1\n[machine]\nname = "desk"\nmaximum_nozzle_temperature = "270 °C"\n'
BASE = "# head\nrim = 80\nshare = 15\nheat = 240\nlamp = 60\n"
Program = Callable[..., Any]


@pytest.fixture(autouse=True)
def club(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    Path("map.toml").write_text(MAP)
    Path("slow.toml").write_text(RECIPE)
    Path("desk.toml").write_text(DESK, encoding="utf-8")
    for folder in ("bases", "soft"):
        Path(folder).mkdir()
    return tmp_path


def lay_out(count: int) -> None:
    for number in range(count):
        Path(f"bases/p{number:02}.cfg").write_text(BASE.replace("lamp = 60", f"lamp = {number}"))
        request = Request((f"bases/p{number:02}.cfg",), "map.toml", ("slow.toml",), ("desk.toml",))
        write(derive(request), f"soft/p{number:02}.cfg")


def change(name: str | Path, old: str, new: str) -> None:
    text = Path(name).read_text(encoding="utf-8")
    assert old in text
    Path(name).write_text(text.replace(old, new), encoding="utf-8")


def test_forty_with_edits_in_ten(program: Program) -> None:
    lay_out(40)
    for number in range(0, 40, 4):
        change(f"soft/p{number:02}.cfg", "share = 15", "share = 8")
    edited = {path.name: path.read_bytes() for path in Path("soft").glob("*.cfg")}
    for path in Path("bases").iterdir():
        change(path, "rim = 80", "rim = 36")
    ran = program("rederive", "soft", "--in-place", "--jobs", "1")
    assert ran.code == 0, ran.err
    assert ran.out.count("\n") <= 24
    assert "40 derived files: 40 brought forward. Hand edits kept in 10 files." in ran.out
    assert "outer_wall.speed: 40 mm/s → 36 mm/s (40 files)" in ran.out
    for number in range(40):
        text = Path(f"soft/p{number:02}.cfg").read_text()
        assert text == BASE.replace("rim = 80", "rim = 36").replace("lamp = 60", f"lamp = {number}").replace(
            "share = 15", "share = 15" if number % 4 else "share = 8"
        )
        assert Path(f"soft/p{number:02}.cfg.before").read_bytes() == edited[f"p{number:02}.cfg"]
    again = program("rederive", "soft", "--in-place", "--jobs", "1")
    assert "40 derived files: 40 current." in again.out
    assert Path("soft/p00.cfg.before").read_bytes() == edited["p00.cfg"]  # nothing was written, so nothing went
    assert program("rederive", "soft", "--check").code == 0


def test_a_conflict_stays_and_is_listed_until_a_side_is_preferred(program: Program) -> None:
    lay_out(3)
    change("soft/p01.cfg", "rim = 40", "rim = 45")
    Path("soft/p02.cfg.ledger.json").write_text("{}")
    for path in Path("bases").iterdir():
        change(path, "rim = 80", "rim = 36")
    ran = program("rederive", "soft", "--in-place", "--jobs", "1", "--as", "json")
    assert ran.code == 2
    states = {item["file"]: item["state"] for item in json.loads(ran.out)["files"]}
    assert states == {"soft/p00.cfg": "made", "soft/p01.cfg": "stays", "soft/p02.cfg": "failed"}
    assert "rim = 45" in Path("soft/p01.cfg").read_text()
    ran = program("rederive", "soft/p01.cfg", "--in-place")
    assert ran.code == 3
    assert "stays: conflict: outer_wall.speed" in ran.out
    assert "--prefer" in ran.out
    ran = program("rederive", "soft/p01.cfg", "--in-place", "--prefer", "derived")
    assert ran.code == 0
    assert "rim = 45" in Path("soft/p01.cfg").read_text()
    assert "it overrules slow 1.0.0" in ran.out


def test_into_a_folder_keeps_places_and_hand_edits_there(program: Program) -> None:
    lay_out(2)
    change("bases/p00.cfg", "rim = 80", "rim = 36")
    ran = program("rederive", "soft", "-o", "new", "--jobs", "1")
    assert ran.code == 0, ran.err
    assert "rim = 36" in Path("new/p00.cfg").read_text()
    assert "rim = 40" in Path("soft/p00.cfg").read_text()
    assert "exists already" in program("rederive", "soft", "-o", "new", "--jobs", "1").out
    change("new/p00.cfg", "share = 15", "share = 9")
    ran = program("rederive", "soft", "-o", "new", "--overwrite", "--jobs", "1")
    assert ran.code == 2
    assert "It was edited by hand" in ran.out
    assert "share = 9" in Path("new/p00.cfg").read_text()
    ran = program("rederive", "soft", "-o", "new", "--overwrite", "--discard-edits", "--jobs", "1")
    assert ran.code == 0
    assert "discarded" in ran.out


def test_somebody_elses_before_is_not_replaced(program: Program) -> None:
    lay_out(1)
    change("bases/p00.cfg", "rim = 80", "rim = 36")
    Path("soft/p00.cfg.before").write_text("mine")
    ran = program("rederive", "soft", "--in-place")
    assert ran.code == 2
    assert "no earlier run has left it" in ran.out
    assert Path("soft/p00.cfg.before").read_text() == "mine"
    assert "rim = 40" in Path("soft/p00.cfg").read_text()


def test_two_files_of_one_name_do_not_meet(program: Program) -> None:
    lay_out(1)
    Path("other").mkdir()
    for name in ("p00.cfg", "p00.cfg.ledger.json"):
        Path("other", name).write_bytes(Path("soft", name).read_bytes())
    ran = program("rederive", "soft/p00.cfg", "other/p00.cfg", "-o", "new")
    assert ran.code == 2
    assert "would both be written" in ran.err
    assert not Path("new").exists()


def test_changed_facts_make_stale_and_are_taken_or_kept(program: Program) -> None:
    lay_out(1)
    change("desk.toml", "270 °C", "220 °C")
    ran = program("rederive", "soft/p00.cfg", "--check")
    assert ran.code == 1
    assert "stale: facts desk changed (maximum nozzle temperature: 270 °C → 220 °C)" in ran.out
    assert program("rederive", "soft/p00.cfg", "--check", "--keep-facts").code == 0
    kept = program("rederive", "soft/p00.cfg", "--keep-facts", "-o", "kept.cfg")
    assert kept.code == 0
    assert "heat = 240" in Path("kept.cfg").read_text()
    ran = program("rederive", "soft/p00.cfg", "-o", "new.cfg")
    assert "heat = 220" in Path("new.cfg").read_text()
    assert program("rederive", "new.cfg", "--check").code == 0
    Path("desk.toml").unlink()
    gone = program("rederive", "soft/p00.cfg", "--check")
    assert gone.code == 2
    assert "--keep-facts" in gone.out


def test_an_answer_goes_before_the_facts_file_here_too(program: Program) -> None:
    lay_out(1)
    asked = Request(
        ("bases/p00.cfg",),
        "map.toml",
        ("slow.toml",),
        ("desk.toml",),
        answers={"machine.maximum_nozzle_temperature": "230 °C"},
    )
    write(derive(asked), "soft/p00.cfg", overwrite=True)
    change("desk.toml", "270 °C", "220 °C")
    assert program("rederive", "soft/p00.cfg", "--check").code == 0


def test_a_changed_map_makes_stale(program: Program) -> None:
    lay_out(1)
    change("map.toml", 'key = "share"', 'key = "share"\nunit = "%"')
    ran = program("rederive", "soft", "--check")
    assert ran.code == 1
    assert "stale: key map bench changed" in ran.out


def test_a_folder_of_newer_bases(program: Program) -> None:
    lay_out(2)
    Path("newer").mkdir()
    for number in range(2):
        Path(f"newer/p{number:02}.cfg").write_text(BASE.replace("rim = 80", "rim = 30"))
    ran = program("rederive", "soft", "--onto", "newer", "--in-place", "--jobs", "1")
    assert ran.code == 0, ran.out
    assert "rim = 30" in Path("soft/p01.cfg").read_text()


@pytest.mark.parametrize(("name", "start"), [("all.md", "# Brought forward"), ("all.html", "<!doctype html>")])
def test_reports_hold_every_file(name: str, start: str, program: Program) -> None:
    lay_out(2)
    change("bases/p00.cfg", "rim = 80", "rim = 36")
    ran = program("rederive", "soft", "--dry-run", "--jobs", "1", "--report", name)
    assert ran.code == 0
    text = Path(name).read_text(encoding="utf-8")
    assert text.startswith(start)
    assert "p00" in text
    assert "p01" in text
    assert "rim = 40" in Path("soft/p00.cfg").read_text()


def test_processes_say_the_same_as_one(program: Program) -> None:
    lay_out(9)
    change("bases/p00.cfg", "rim = 80", "rim = 36")
    one, two = (program("rederive", "soft", "--dry-run", "--full", "--jobs", jobs).out for jobs in ("1", "2"))
    assert one == two
