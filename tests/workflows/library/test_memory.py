"""What checks remember changes no finding, whatever changes in between, and counts only for who made it."""

from __future__ import annotations

import os
import random
import shutil
import tempfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from profilesmith.workflows.library import memory as module
from profilesmith.workflows.library.check import check_library
from profilesmith.workflows.library.checked import LibraryChecked
from profilesmith.workflows.library.memory import FOLDER, open_memory
from profilesmith.workflows.library.new_library import new_library

RECIPE = """format = 1
[recipe]
name = "{name}"
version = "1.0.0"
title = "Made up"
licence = "CC0-1.0"
goes_with = [{friends}]
[[rule]]
setting = "{setting}"
{operation}
why = "test"
"""
OPERATIONS = (
    'cap = "40 mm/s"',
    'raise_to = "45 mm/s"',
    'cap = { flow = { fact = "spool.maximum_flow" } }',
    'cap = "4 kg"',
)
SETTINGS = ("outer_wall.speed", "inner_wall.speed", "no.such_setting")


@pytest.fixture(autouse=True)
def secret(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "own"))
    return tmp_path / "own" / "profilesmith" / "secret"


@pytest.fixture
def club(tmp_path: Path) -> Path:
    new_library(tmp_path / "club", "", "CC0-1.0")
    text = tmp_path / "club" / "profiles" / "example-sheet.settings"
    text.write_bytes(b"; a member's\n" + text.read_bytes())  # as laid out it is none of a real recipe's
    return tmp_path / "club"


def check(folder: Path, remember: bool = True, jobs: int = 1) -> LibraryChecked:
    return check_library(folder, False, jobs, lambda done, total: None, remember=remember)


def records(club: Path) -> list[Path]:
    return sorted((club / FOLDER).glob("*.record"))


def change(club: Path, chance: random.Random) -> None:
    """One thing that a keeper may do."""
    number = chance.randrange(3)
    path = club / "recipes" / f"made-{number}.toml"
    what = chance.choice(("recipe", "recipe", "recipe", "delete", "facts", "map", "profile", "touch"))
    if what == "recipe":
        friends = ", ".join(f'"made-{other}"' for other in range(3) if chance.random() < 0.5)
        setting, operation = chance.choice(SETTINGS), chance.choice(OPERATIONS)
        path.write_text(RECIPE.format(name=path.stem, friends=friends, setting=setting, operation=operation))
    elif what == "delete":
        path.unlink(missing_ok=True)
    elif what == "touch":
        os.utime(club / "library.toml", (1, 1))
    else:
        folder, ending = {"facts": ("facts", "toml"), "map": ("keymaps", "toml"), "profile": ("profiles", "settings")}[
            what
        ]
        file = next((club / folder).glob(f"*.{ending}"))
        old, new = {"facts": ('"', ' "'), "map": ("\n", "\n\n"), "profile": ("=", " =")}[what]
        file.write_text(file.read_text(encoding="utf-8").replace(old, new, 1), encoding="utf-8")


@settings(max_examples=4)
@given(st.integers(0, 10_000))
def test_findings_are_equal_with_and_without(seed: int) -> None:
    with tempfile.TemporaryDirectory() as place:
        club, chance = Path(place) / "club", random.Random(seed)
        new_library(club, "", "CC0-1.0")
        for _ in range(4):
            change(club, chance)
            known, anew = check(club), check(club, remember=False)
            assert known._replace(remembered=0) == anew
        assert check(club).remembered == anew.derivations


def test_only_what_changed_is_done_again(club: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for number in range(2):
        text = RECIPE.format(name=f"made-{number}", friends="", setting="outer_wall.speed", operation='cap = "40 mm/s"')
        (club / "recipes" / f"made-{number}.toml").write_text(text)
    first = check(club)
    assert first.remembered == 0
    assert check(club).remembered == first.derivations
    (club / "recipes" / "made-1.toml").write_text(text.replace("40 mm/s", "41 mm/s"))
    assert check(club).remembered == first.derivations - first.profiles
    monkeypatch.setattr(module, "program_fingerprint", lambda: "another program")
    assert check(club).remembered == 0


def test_a_record_of_somebody_else_counts_for_nothing(club: Path, secret: Path) -> None:
    made = check(club)
    recipe = next((club / "recipes").glob("*.toml"))
    planted = {path.name: path.read_bytes() for path in records(club)}
    secret.unlink()
    again = check(club)
    assert again.remembered == 0
    assert again._replace(remembered=0) == made
    for name, raw in planted.items():
        (club / FOLDER / name).write_bytes(raw)
    assert check(club).remembered == 0
    for path in records(club):
        path.write_bytes(path.read_bytes()[:-1] + b"?")
    assert check(club)._replace(remembered=0) == made
    recipe.write_text(recipe.read_text(encoding="utf-8") + "\n# looked at again\n", encoding="utf-8")
    assert check(club).remembered < made.derivations


def test_it_is_ignored_by_git_and_forgets_what_is_gone(club: Path) -> None:
    check(club)
    assert "\n*\n" in (club / FOLDER / ".gitignore").read_text()
    before = len(records(club))
    shutil.copy(next((club / "recipes").glob("*.toml")), club / "recipes" / "other.toml")
    check(club)
    assert len(records(club)) > before
    (club / "recipes" / "other.toml").unlink()
    check(club)
    assert len(records(club)) == before


def test_a_link_in_its_place_is_not_followed(club: Path, tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    (club / FOLDER).symlink_to(tmp_path / "elsewhere")
    made = check(club)
    assert {item.number for item in made.findings if item.severity == "error"} == {"L113"}
    assert list((tmp_path / "elsewhere").iterdir()) == []


def test_a_folder_that_takes_no_record_changes_nothing(club: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    anew = check(club, remember=False)
    (club / FOLDER).write_text("a file")
    assert check(club) == anew
    monkeypatch.setenv("XDG_CACHE_HOME", str(club / "library.toml"))
    (club / FOLDER).unlink()
    assert check(club) == anew


def test_a_small_library_remembers_nothing(club: Path) -> None:
    check_library(club, False, 1, lambda done, total: None)
    assert not (club / FOLDER).exists()


def test_several_processes_at_once(club: Path) -> None:
    one, two = check(club, jobs=2), check(club, jobs=2)
    assert two._replace(remembered=0) == one
    assert two.remembered == one.derivations


def test_what_is_named_alike_is_not_mixed_up(club: Path) -> None:
    memory = open_memory(club)
    memory.keep("attempt\0a", {"key": "1"})
    assert memory.recall("attempt\0a") == {"key": "1", "program": memory.program}
    assert memory.recall("attempt\0b") == {}
    target = next((club / FOLDER).glob("*.record"))
    memory.keep("attempt\0b", {"key": "2"})
    other = next(path for path in records(club) if path != target)
    other.write_bytes(target.read_bytes())  # the record of another step in its place
    assert memory.recall("attempt\0b") == {}
