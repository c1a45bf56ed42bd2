"""``keymap check``: texts that a switch does not name, and keys that a map leaves alone."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Program = Callable[..., Any]
MAP = """format = 1
[keymap]
name = "oak"
not_bound = ["CornerKick", "[Pace] Lapm"]
[[binding]]
setting = "outer_wall.speed"
key = "SkinPace"
[[binding]]
setting = "raft.on"
key = "FootKind"
on = "raft"
off = "skirt"
"""
TEXT = "[Pace]\nSkinPace = 50\nInfillSpeed = 60\nLamp = 3\n[Push]\nCornerKick = 8\n[Foot]\nFootKind = brim\n"
RECIPE = (
    'format = 1\n[recipe]\nname = "lift"\nversion = "1.0.0"\n[[rule]]\nsetting = "raft.on"\nset = "on"\nwhy = "test"\n'
)


@pytest.fixture(autouse=True)
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    Path("map.toml").write_text(MAP)
    Path("oak.txt").write_text(TEXT)
    Path("lift.toml").write_text(RECIPE)
    return tmp_path


def test_a_text_that_a_switch_does_not_name_is_told_by_check_and_derive(program: Program) -> None:
    told = "oak.txt:8 raft.on: 'brim' is neither 'raft' (on) nor 'skirt' (off): it reads as off"
    assert told in program("keymap", "check", "map.toml", "oak.txt").out
    derived = program(
        "derive", "oak.txt", "--keymap", "map.toml", "--recipe", "lift.toml", "--as", "markdown", "-o", "soft.txt"
    )
    assert "'brim' is neither 'raft'" in derived.out.replace("\\", "")
    assert "FootKind = raft" in Path("soft.txt").read_text()
    Path("oak.txt").write_text(TEXT.replace("brim", "skirt"))
    assert "neither" not in program("keymap", "check", "map.toml", "oak.txt").out


def test_keys_that_the_map_leaves_alone_are_counted_apart(program: Program) -> None:
    shown = program("keymap", "check", "map.toml", "oak.txt").out
    unknown, _, apart = shown.partition("Left alone, as the map says (not_bound): 1")
    assert "CornerKick" not in unknown.partition("Keys that no binding knows: 2")[2]
    assert "[Pace] Lapm is not in the text. Did you mean 'Lamp'?" in apart
    data = json.loads(program("keymap", "check", "map.toml", "oak.txt", "--as", "json").out)
    assert [line["key"] for line in data["unmapped"]] == ["[Pace] InfillSpeed", "[Pace] Lamp"]
    assert data["left_alone"] == ["CornerKick", "[Pace] Lapm"]


def test_a_long_list_of_what_is_only_proposed_is_cut_on_one_screen(program: Program, tmp_path: Path) -> None:
    """The first six with their places and how many more there are; all of them in full."""
    wanted = (
        *("inner_wall.speed", "infill.speed", "top.speed", "bottom.speed", "bridge.speed"),
        *("support.speed", "raft.speed", "first_layer.speed"),
    )
    blocks = "".join(f'# [[binding]]\n# setting = "{name}"\n# key = "k{at}"\n\n' for at, name in enumerate(wanted))
    head = 'format = 1\n[keymap]\nname = "x"\n[[binding]]\nsetting = "outer_wall.speed"\nkey = "rim"\n\n'
    (tmp_path / "map.toml").write_text(head + blocks)
    (tmp_path / "a.cfg").write_text("rim = 80\n" + "".join(f"k{at} = 80\n" for at in range(len(wanted))))
    order = ("derive", tmp_path / "a.cfg", "--keymap", tmp_path / "map.toml", "--recipe", "flexible-pla", "--dry-run")
    brief, full = (" ".join(program(*order, *more).out.split()) for more in ((), ("--full",)))
    shown = brief.split("Proposed, not accepted yet: ")[1].split("Accept a block")[0]
    assert shown.count(" at ") == 6
    assert "and 2 more" in shown
    assert [name for name in wanted if name not in full] == []
