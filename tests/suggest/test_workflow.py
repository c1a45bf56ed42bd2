"""``keymap suggest`` and ``keymap check`` as a user calls them; texts that are no settings get an honest no."""

import json
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from profilesmith.vocabulary.load_vocabulary import load_vocabulary

CASES = Path(__file__).resolve().parents[1] / "cases" / "dialects" / "tuned"
MILLRACE = CASES / "millrace" / "base.card"
VALUES = (0.2, 0.25, 3, 4, 4, 50, 70, 60, 205, 60, 1.75, 0.4, 100, 1, 0.8, 35, 150, 1000, 15, 45)
LETTER = """\
Dear Ms Weaver,

thank you for your letter: it came on Tuesday. We print the brackets at the end of the week; the wall is three layers.
The price is as agreed: 40 a piece. Note: bring the old ones.
"""
KITCHEN = "[oven]\ntemperature = 200\nfan = on\ntime = 40\n[bread]\nfill = 20\nlayers = 3\nwidth = 12\nheight = 8\n"
GAME = (
    "[player]\nspeed = 50\njump_height = 1.2\nwalk_speed = 30\n[video]\nwidth = 1280\n"
    "brightness = 70\n[audio]\nvolume = 80\n"
)
SERVER = (
    "[server]\nport = 8080\ntimeout = 30\nworkers = 4\n[log]\nlevel = info\nrotate = 7\n"
    "[cache]\nsize = 256\nenabled = true\n"
)

Program = Callable[..., Any]


@pytest.mark.parametrize(
    ("content", "seems"),
    [
        (LETTER.encode(), ""),
        (b"\x89PNG\r\n\x1a\n" + bytes(range(256)) * 8, "picture"),
        (b'{\n "slab_rise": 0.2,\n "turns": 3,\n "tip_heat": 205\n}\n', "JSON"),
        (b'<?xml version="1.0"?>\n<p>\n <s name="layer" value="0.2"/>\n</p>\n', "XML"),
        (b"", "empty"),
        ("".join(f"{at} = {value}\n" for at, value in enumerate(VALUES * 3)).encode(), ""),
        ("".join(f"P{at:03} = {value}\n" for at, value in enumerate(VALUES * 3)).encode(), ""),
        ("[слой]\nвысота = 0.2\nпервый = 0.25\n[сопло]\nтемпература = 205\n[стол]\nтемпература = 60\n".encode(), ""),
        ("层高 = 0.2\n墙数 = 3\n喷嘴温度 = 205\n热床温度 = 60\n打印速度 = 50\n".encode(), ""),
        (KITCHEN.encode(), ""),
        (GAME.encode(), ""),
        (SERVER.encode(), ""),
        (b"G28\nG1 X10 F3000\nM104 S200\n" * 9, ""),
    ],
    ids=[
        "letter",
        "picture",
        "json",
        "xml",
        "empty",
        "numbers",
        "numbered",
        "cyrillic",
        "chinese",
        "kitchen",
        "game",
        "server",
        "moves",
    ],
)
def test_nothing_is_invented(program: Program, tmp_path: Path, content: bytes, seems: str) -> None:
    base, out = tmp_path / "base", tmp_path / "map.toml"
    base.write_bytes(content)
    ran = program("keymap", "suggest", base, "-o", out)
    assert ran.code == 2
    assert set(ran.codes) <= {"nothing-recognised", "no-settings"}
    assert seems in ran.err
    assert "Export the settings as text" in ran.err
    assert not out.exists()


def test_a_map_is_written_and_loads(program: Program, tmp_path: Path) -> None:
    out = tmp_path / "map.toml"
    ran = program("keymap", "suggest", MILLRACE, "-o", out)
    assert ran.code == 0
    assert f"{out} was written." in ran.out
    checked = program("keymap", "check", out, MILLRACE)
    assert checked.code == 0
    assert "Wrong" not in checked.out


def test_what_is_sure_derives_unedited(program: Program, tmp_path: Path) -> None:
    out, tuned = tmp_path / "map.toml", tmp_path / "tuned.card"
    program("keymap", "suggest", MILLRACE, "-o", out)
    ran = program("derive", MILLRACE, "--keymap", out, "--recipe", "flexible-pla", "-o", tuned)
    assert ran.code == 0, ran.err
    assert tuned.read_bytes() != MILLRACE.read_bytes()


def test_without_o_nothing_is_written(program: Program) -> None:
    ran = program("keymap", "suggest", MILLRACE)
    assert ran.code == 0
    assert "Nothing was written" in ran.out


def test_json(program: Program, tmp_path: Path) -> None:
    out = tmp_path / "map.toml"
    data = json.loads(program("keymap", "suggest", MILLRACE, "-o", out, "--as", "json").out)
    assert data["format"] == 1
    assert data["written"] == str(out)
    active = {one["setting"] for one in tomllib.loads(out.read_text(encoding="utf-8"))["binding"]}
    assert {one["setting"] for one in data["sure"]} == active
    assert all(one["doubts"] for one in data["check"])
    assert not any(one["doubts"] for one in data["sure"])
    assert len(data["sure"]) + len(data["check"]) + len(data["missing"]) == len(load_vocabulary().settings)


def test_checks_accepted_from_the_start(program: Program, tmp_path: Path) -> None:
    out = tmp_path / "map.toml"
    program("keymap", "suggest", MILLRACE, "-o", out, "--accept-checks")
    assert program("keymap", "check", out, MILLRACE).code == 0
    assert len(tomllib.loads(out.read_text(encoding="utf-8"))["binding"]) > 50


def test_texts_that_are_read_together(program: Program, tmp_path: Path) -> None:
    out = tmp_path / "map.toml"
    bases = sorted((CASES / "loomframe").glob("base.*"))
    assert program("keymap", "suggest", *bases, "-o", out).code == 0
    settings = {one["setting"] for one in tomllib.loads(out.read_text(encoding="utf-8"))["binding"]}
    assert {"infill.speed", "retraction.speed"} <= settings


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (("nowhere.txt",), "no-file"),
        ((MILLRACE, "--as", "poem"), "form"),
        ((MILLRACE, "-o", MILLRACE), "output-is-input"),
        ((MILLRACE, "-o", "no/such/folder/k.toml"), "no-folder"),
        ((MILLRACE, "--facts", "nowhere.toml"), "no-file"),
    ],
)
def test_wrong_calls(program: Program, words: tuple[object, ...], code: str) -> None:
    ran = program("keymap", "suggest", *words)
    assert ran.code == 2
    assert code in ran.codes


def test_a_map_that_cannot_be_read_is_not_touched(program: Program, tmp_path: Path) -> None:
    out = tmp_path / "map.toml"
    out.write_text("format = 1\n[[binding]]\nsetting = 'nonsense'\nkey = 'a'\n")
    ran = program("keymap", "suggest", MILLRACE, "-o", out)
    assert ran.code == 2
    assert {"unknown-setting", "map"} <= set(ran.codes)
    assert "nonsense" in out.read_text()


def test_without_a_terminal_nothing_is_asked(program: Program, tmp_path: Path) -> None:
    out = tmp_path / "map.toml"
    ran = program("keymap", "suggest", MILLRACE, "-o", out, "--ask")
    assert ran.code == 0
    assert "no terminal" in ran.err
    assert out.exists()


def test_twenty_thousand_keys(program: Program, tmp_path: Path) -> None:
    """The few keys that mean something are found among very many that mean nothing: a thousand for each of them."""
    base = tmp_path / "long.card"
    noise = "".join(f"amber birch {at} = {at % 300}\n" for at in range(20_000))
    base.write_text(MILLRACE.read_text(encoding="utf-8") + "\n[heap]\n" + noise, encoding="utf-8")
    data = json.loads(program("keymap", "suggest", base, "--as", "json").out)
    assert len(data["sure"]) >= 20
    assert not any("amber" in one["key"] for one in data["sure"])


def test_check_shows_keys_that_look_like_settings_first(program: Program, tmp_path: Path) -> None:
    base, keymap = tmp_path / "base.txt", tmp_path / "map.toml"
    base.write_text(
        "author = bench two\nlayer height = 0.2\nouter wall speed = 50\nbed temperature = 560\nbed heat = 60\n"
    )
    keymap.write_text(
        'format = 1\n[keymap]\nname = "m"\n[[binding]]\nsetting = "layer.height"\nkey = "layer height"\nunit = "mm"\n'
        '[[binding]]\nsetting = "bed.temperature"\nkey = "bed temperature"\nunit = "C"\n'
        '[[binding]]\nsetting = "wall.count"\nkey = "outer walls"\n'
    )
    ran = program("keymap", "check", keymap, base)
    assert ran.code == 2
    unknown = ran.out.split("Keys that no binding knows: 3")[1]
    assert unknown.index("outer wall speed") < unknown.index("author")
    assert "like outer_wall.speed" in unknown
    assert "! bed.temperature" in ran.out
    assert "IMPLAUSIBLE" in ran.out
    data = json.loads(program("keymap", "check", keymap, base, "--as", "json").out)
    assert data["unmapped"][0]["looks_like"] == "outer_wall.speed"
    assert data["unmapped"][-1]["looks_like"] is None
    assert [one["implausible"] for one in data["read"]] == [False, True]
    assert "outer wall speed" in data["absent"]["wall.count"]


def test_lines_that_are_not_read_are_said_first(program: Program, tmp_path: Path) -> None:
    base = tmp_path / "base"
    base.write_bytes(MILLRACE.read_bytes() + b"\nlamp ~ 20\n")
    first = program("keymap", "suggest", base, "-o", tmp_path / "map.toml").out.splitlines()[0]
    assert first.startswith("1 line looks like a setting and is not read: ")
    assert "lamp ~ 20" in first
    assert "Write delimiter = " in first
