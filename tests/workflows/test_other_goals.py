"""Compare, explain, demo: what each tells, and that it writes nothing that it should not."""

from __future__ import annotations

import shlex
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Program = Callable[..., Any]
METRIC = (
    'format = 1\n[keymap]\nname = "metric"\n[[binding]]\nsetting = "outer_wall.speed"\n'
    'key = "rim"\n[[binding]]\nsetting = "layer.height"\nkey = "ply"\n'
)
OTHER = (
    'format = 1\n[keymap]\nname = "other"\n[text]\ndelimiter = ":"\n[[binding]]\n'
    'setting = "outer_wall.speed"\nkey = "Wall"\nunit = "mm/min"\n'
    '[[binding]]\nsetting = "layer.height"\nkey = "Layer"\nunit = "um"\n[[binding]]\nsetting = "raft.on"\nkey = "Pad"\n'
)
RECIPE = (
    'format = 1\n[recipe]\nname = "slow"\nversion = "1.0.0"\n[[rule]]\n'
    'setting = "outer_wall.speed"\ncap = "40 mm/s"\nwhy = "Soft strands buckle."\n'
    'source = "common practice"\n'
    '[[rule]]\nsetting = "outer_wall.speed"\ncap = "50 mm/s"\nwhy = "Walls stay even."\n'
)


@pytest.fixture(autouse=True)
def files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    Path("a.cfg").write_text("rim = 60\nply = 0.2\nhue = red\n")
    Path("b.cfg").write_text("rim = 40\nply = 0.2\nhue = blue\n")
    Path("c.txt").write_text("Wall: 3600\nLayer: 200\nPad: yes\n")
    Path("metric.toml").write_text(METRIC)
    Path("other.toml").write_text(OTHER)
    Path("slow.toml").write_text(RECIPE)
    return tmp_path


def test_compare_names_what_differs_and_nothing_else(program: Program) -> None:
    ran = program("compare", "a.cfg", "b.cfg", "--keymap", "metric.toml", "--full")
    assert ran.code == 0
    assert "60 mm/s → 40 mm/s" in ran.out
    assert "layer.height" not in ran.out
    assert "hue" in ran.out, "a key that the map does not know, with another text"


@pytest.mark.parametrize("form", ["terminal", "md", "html"])
def test_compare_names_the_lines_that_differ_in_a_block_of_commands(form: str, program: Program) -> None:
    """Line by line, however long the block; what is only here or only there too."""
    block = "".join(f"  G1 X{number} Y{number} F3000\n" for number in range(20))
    Path("a.cfg").write_text(f"rim = 60\nply = 0.2\nwake = G28\n{block}  M221 S98\nbell = 3\n")
    Path("b.cfg").write_text(f"lamp = 2\nrim = 60\nply = 0.2\nwake = G28\n{block}  M221 S95\n")
    ran = program("compare", "a.cfg", "b.cfg", "--keymap", "metric.toml", "--exit-code", "--as", form)
    assert ran.code == 1
    assert "3 other keys differ" in ran.out
    for words in ("wake M221 S98 → M221 S95 (b.cfg:25)", "lamp nothing → 2 (b.cfg:1)", "bell 3 → nothing (a.cfg:25)"):
        assert words in ran.out
    assert "G1 X" not in ran.out


def test_compare_through_two_maps(program: Program) -> None:
    """0.2 mm and 200 µm, 60 mm/s and 3600 mm/min are no differences."""
    ran = program("compare", "a.cfg", "c.txt", "--keymap", "metric.toml", "--new-keymap", "other.toml", "--exit-code")
    assert ran.code == 1
    assert "raft.on" in ran.out
    assert "outer_wall.speed" not in ran.out
    assert "layer.height" not in ran.out


def test_explain_tells_text_rules_limits_and_result(program: Program) -> None:
    Path("facts.toml").write_text('format = 1\n[machine]\ndrive = "direct"\n')
    ran = program(
        "explain",
        "outer_wall.speed",
        "a.cfg",
        "--keymap",
        "metric.toml",
        "--recipe",
        "slow.toml",
        "--facts",
        "facts.toml",
    )
    assert ran.code == 0
    for words in (
        "a.cfg:1 rim = 60",
        "60 mm/s",
        "slow 1.0.0, rule 1",
        "at most 40 mm/s",
        "Soft strands buckle.",
        "common practice",
        "rule 2",
        "overruled",
        "result: 60 mm/s → 40 mm/s",
        "1 to 1000 mm/s",
    ):
        assert words in ran.out, words


@pytest.mark.parametrize(
    ("setting", "words"),
    [
        ("layer.height", ["as it was", "no rule speaks of it"]),
        ("raft.on", ["the map has no key for it"]),
        ("outer_wall.sped", []),
    ],
)
def test_explain_other_settings(setting: str, words: list[str], program: Program) -> None:
    ran = program("explain", setting, "a.cfg", "--keymap", "metric.toml", "--recipe", "slow.toml")
    assert ran.code == (0 if words else 2)
    assert [word for word in words if word not in ran.out] == []
    assert words or "outer_wall.speed" in ran.err


def test_explain_shows_a_conflict(program: Program) -> None:
    Path("fast.toml").write_text(RECIPE.replace("slow", "fast").replace('cap = "40 mm/s"', 'raise_to = "55 mm/s"'))
    ran = program(
        "explain",
        "outer_wall.speed",
        "a.cfg",
        "--keymap",
        "metric.toml",
        "--recipe",
        "slow.toml",
        "--recipe",
        "fast.toml",
    )
    assert "cannot both hold" in ran.out


def test_the_demo_lays_out_derives_and_its_next_commands_run(program: Program, monkeypatch: pytest.MonkeyPatch) -> None:
    ran = program("demo", "shelf")
    assert ran.code == 0, ran.err
    base, soft = Path("shelf/base.settings").read_bytes(), Path("shelf/soft.settings").read_bytes()
    assert base.count(b"\n") == soft.count(b"\n")
    assert 5 < sum(old != new for old, new in zip(base.splitlines(), soft.splitlines(), strict=True)) < 40
    assert Path("shelf/soft.settings.ledger.json").exists()
    commands = [line.strip() for line in ran.out.splitlines() if line.startswith("  profilesmith ")]
    assert len(commands) == 3
    if "cd shelf" in ran.out:
        monkeypatch.chdir("shelf")
    for command in commands:
        again = program(*shlex.split(command)[1:])
        assert again.code == 0, (command, again.err)


@pytest.mark.parametrize(
    "there",
    [
        "base.settings",
        "soft.settings",
        "keymap.toml",
        pytest.param("soft.settings.ledger.json"),
    ],
)
def test_the_demo_touches_nothing_that_is_there(there: str, program: Program) -> None:
    Path("shelf").mkdir()
    Path("shelf", there).write_text("mine\n")
    ran = program("demo", "shelf")
    assert ran.code == 2
    assert "exists" in ran.codes
    assert Path("shelf", there).read_text() == "mine\n"
    assert [path.name for path in Path("shelf").iterdir()] == [there]


def test_the_demo_where_no_folder_can_be_made(program: Program) -> None:
    ran = program("demo", "a.cfg/shelf")
    assert (ran.code, ran.codes) == (2, ("cannot-write",))
