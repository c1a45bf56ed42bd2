"""Fourteen branches that a club's keeper was sent, each with what is said of it, and its exit code.

A recipe deleted; a map deleted; links alone; a rule on heat removed; an unknown material at 258 °C; reasons of one
letter; cautions cut; a recipe renamed; a name that looks like another; control characters; a machine's limit raised; a
bed on a dryer's key; strictness, check and hook gutted in one; a recipe as it was distilled.
"""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from profilesmith.workflows.library.new_library import new_library
from tests.git import git

Program = Callable[..., Any]
pytestmark = pytest.mark.skipif(not shutil.which("git"), reason="git is not installed")
HEAT = """[[rule]]
setting = "nozzle.temperature"
window = ["208 °C", "215 °C"]
why = "Hotter than this it comes apart."
source = "common practice"
"""
WARM = f"""format = 1
[recipe]
name = "warm"
version = "1.0.0"
title = "Warmer"
from = "PLA"
to = "flexible PLA"
licence = "CC0-1.0"
cautions = ["Ventilate: fumes.", "Hot parts burn."]
[[rule]]
setting = "outer_wall.speed"
cap = "40 mm/s"
why = "A soft strand buckles when it is pushed fast."
source = "common practice"
{HEAT}[[example]]
given = {{ "outer_wall.speed" = "80 mm/s", "nozzle.temperature" = "230 °C" }}
expect = {{ "outer_wall.speed" = "40 mm/s", "nozzle.temperature" = "215 °C" }}
"""
GIVEN, EXPECTED = ', "nozzle.temperature" = "230 °C"', ', "nozzle.temperature" = "215 °C"'
HOT = EXPECTED.replace("215", "250")
MAP = """format = 1
[keymap]
name = "bench"
about = "An invented text"
"""
BINDINGS = {
    "outer_wall.speed": ("outer_wall_speed", "mm/s"),
    "nozzle.temperature": ("nozzle_temperature", "C"),
    "bed.temperature": ("bed_temperature", "C"),
    "infill.density": ("infill_density", "%"),
}
TEXT = (
    "outer_wall_speed = 60\nnozzle_temperature = 205\nbed_temperature = 60\n"
    "dryer_temperature = 45\ninfill_density = 15\n"
)
DESK = 'format = 1\n[machine]\nname = "desk"\ndrive = "direct"\nmaximum_nozzle_temperature = "240 °C"\n'
LIBRARY = """
[[profile]]
name = "desk"
text = "profiles/desk.settings"
keymap = "bench"
facts = ["desk"]
"""


@pytest.fixture(scope="module")
def laid_out(tmp_path_factory: pytest.TempPathFactory) -> Path:
    club = tmp_path_factory.mktemp("laid") / "club"
    new_library(club, "", "CC0-1.0")
    head = (club / "library.toml").read_text(encoding="utf-8").split("[[profile]]")[0]
    for folder in ("recipes", "keymaps", "facts", "profiles"):
        shutil.rmtree(club / folder)
        (club / folder).mkdir()
    (club / "library.toml").write_text(head.replace("# strict = true", "strict = true") + LIBRARY, encoding="utf-8")
    (club / "recipes" / "warm.toml").write_text(WARM, encoding="utf-8")
    bindings = (
        f'[[binding]]\nsetting = "{name}"\nkey = "{key}"\nunit = "{unit}"\n' for name, (key, unit) in BINDINGS.items()
    )
    (club / "keymaps" / "bench.toml").write_text(MAP + "".join(bindings), encoding="utf-8")
    (club / "facts" / "desk.toml").write_text(DESK, encoding="utf-8")
    (club / "profiles" / "desk.settings").write_text(TEXT)
    git(club, "init", "-q", "-b", "main")
    git(club, "add", "-A")
    git(club, "commit", "-q", "-m", "A library")
    return club


@pytest.fixture
def club(laid_out: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.delenv("PROFILESMITH_LIBRARY", raising=False)
    folder = Path(shutil.copytree(laid_out, tmp_path / "club", symlinks=True))
    git(folder, "checkout", "-q", "-b", "change")
    return folder


def change(path: Path, *pairs: tuple[str, str]) -> None:
    text = path.read_text(encoding="utf-8")
    for old, new in pairs:
        assert old in text, old
        text = text.replace(old, new)
    path.write_text(text, encoding="utf-8")


def recipe(*pairs: tuple[str, str]) -> Callable[[Path], None]:
    return lambda club: change(club / "recipes" / "warm.toml", ('version = "1.0.0"', 'version = "1.1.0"'), *pairs)


def link(club: Path) -> None:
    path = club / "recipes" / "warm.toml"
    path.rename(club.parent / "elsewhere.toml")
    path.symlink_to(club.parent / "elsewhere.toml")


def rename(club: Path, name: str = "warmer") -> None:
    (club / "recipes" / "warm.toml").rename(club / "recipes" / f"{name}.toml")
    change(club / "recipes" / f"{name}.toml", ('name = "warm"', f'name = "{name}"'))


def look_alike(club: Path) -> None:
    text = WARM.replace('name = "warm"', 'name = "wаrm"')  # with a Cyrillic a
    (club / "recipes" / "wаrm.toml").write_text(text, encoding="utf-8")


def other_key(club: Path) -> None:
    """A key whose words only say that it is no setting, while nothing else in the text speaks for a bed."""
    change(club / "keymaps" / "bench.toml", ('"bed_temperature"', '"dryer_c"'))
    change(club / "profiles" / "desk.settings", ("bed_temperature = 60", "dryer_c = 60"))


def gut(club: Path) -> None:
    change(club / "library.toml", ("strict = true", "strict = false"))
    (club / "check.sh").write_text("#!/bin/sh\nexit 0\n")
    (club / ".pre-commit-config.yaml").write_text("repos: []\n")


def distilled(club: Path) -> None:
    (club.parent / "tuned.settings").write_text(TEXT.replace("= 60\nnozzle", "= 40\nnozzle"))
    pair = ("--pair", str(club / "profiles" / "desk.settings"), str(club.parent / "tuned.settings"))
    out = str(club / "recipes" / "soft.toml")
    words = ("distil", *pair, "--keymap", str(club / "keymaps" / "bench.toml"), "-o", out)
    subprocess.run((sys.executable, "-m", "profilesmith", *words), check=True, capture_output=True, timeout=120)


BRANCHES: dict[str, tuple[Callable[[Path], None], set[str]]] = {
    "nothing": (lambda club: None, set()),
    "a recipe deleted": (lambda club: (club / "recipes" / "warm.toml").unlink(), {"T502"}),
    "a map deleted": (lambda club: (club / "keymaps" / "bench.toml").unlink(), {"L111", "T503"}),
    "links alone": (link, {"L113", "T502"}),
    "a rule on heat removed": (recipe((HEAT, ""), (GIVEN, ""), (EXPECTED, "")), {"T506"}),
    "an unknown material at 258 °C": (
        recipe(('to = "flexible PLA"', 'to = "goo"'), ('"208 °C", "215 °C"', '"250 °C", "258 °C"'), (EXPECTED, HOT)),
        {"R401", "T401", "T507"},
    ),
    "reasons of one letter": (recipe(('why = "Hotter than this it comes apart."', 'why = "x"')), {"R203"}),
    "cautions cut": (recipe(('"Ventilate: fumes.", "Hot parts burn."', '"Hot parts burn."')), {"T505"}),
    "renamed to dodge": (rename, {"T502"}),
    "a look-alike name": (look_alike, {"R115"}),
    "control characters": (recipe(('title = "Warmer"', 'title = "War\\u0007mer"')), {"R205"}),
    "a limit of 240 °C raised to 300 °C": (
        lambda club: change(club / "facts" / "desk.toml", ("240 °C", "300 °C")),
        {"F114", "T510"},
    ),
    "a bed on a dryer's key": (
        lambda club: change(club / "keymaps" / "bench.toml", ('"bed_temperature"', '"dryer_temperature"')),
        {"T511"},
    ),
    "a bed on a dryer's key, whose text is changed, too": (other_key, {"T511"}),
    "library, check and hook gutted": (gut, {"T508", "T509"}),
    "a freshly distilled recipe": (distilled, {"R204"}),
}


@pytest.mark.parametrize("branch", BRANCHES)
def test_what_is_said_of_a_branch(branch: str, club: Path, program: Program) -> None:
    make, expected = BRANCHES[branch]
    make(club)
    git(club, "add", "-A")
    git(club, "commit", "-q", "--allow-empty", "-m", "A change")
    ran = program("library", "check", club, "--since", "main", "--as", "json")
    found = json.loads(ran.out)["findings"]
    told = {item["number"] for item in found}
    assert told >= expected, [(item["number"], item["message"]) for item in found]
    assert ran.code == (1 if expected else 0)
    if not expected:
        assert told == set()
