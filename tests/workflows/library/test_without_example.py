"""The starter example is taken out with one command; what was changed or is used stays, and is told."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from profilesmith.library.lay_out import EXAMPLE
from profilesmith.workflows.library.new_library import new_library

Program = Callable[..., Any]
RECIPE = """format = 1
[recipe]
name = "slow"
version = "1.0.0"
title = "Slow"
licence = "CC0-1.0"
[[rule]]
setting = "outer_wall.speed"
cap = "40 mm/s"
why = "A soft strand buckles when it is pushed fast."
source = "common practice"
"""


@pytest.fixture
def club(tmp_path: Path) -> Path:
    new_library(tmp_path / "club", "", "CC0-1.0")
    return tmp_path / "club"


def test_the_example_goes_and_the_rest_stays(club: Path, program: Program) -> None:
    before = (club / "library.toml").read_text(encoding="utf-8")
    ran = program("library", "without-example", club)
    assert ran.code == 0, ran.err
    assert len(EXAMPLE) == 4
    assert not [place for place in EXAMPLE if (club / place).exists()]
    after = (club / "library.toml").read_text(encoding="utf-8")
    assert "[[profile]]" not in after
    assert before.startswith(after.rstrip("\n").rsplit("\n", 1)[0])
    assert "T102" in program("library", "check", club, "--as", "lines").out
    again = program("library", "without-example", club)
    assert again.code == 2


def test_what_is_changed_or_used_is_kept(club: Path, program: Program) -> None:
    (club / "recipes" / "example-gentle.toml").write_text(RECIPE.replace('"slow"', '"example-gentle"'))
    (club / "profiles" / "mine.settings").write_bytes((club / "profiles" / "example-sheet.settings").read_bytes())
    with (club / "library.toml").open("a", encoding="utf-8") as stream:
        stream.write('\n[[profile]]\nname = "mine"\ntext = "profiles/mine.settings"\nkeymap = "example-sheet"\n')
    ran = program("library", "without-example", club)
    assert ran.code == 0
    assert "kept recipes/example-gentle.toml: it was changed" in ran.out
    assert "kept keymaps/example-sheet.toml: another reference profile uses it" in ran.out
    assert not (club / "facts" / "example-printer.toml").exists()
    assert 'name = "mine"' in (club / "library.toml").read_text(encoding="utf-8")


def test_a_real_recipe_is_not_shown_on_the_example(club: Path, program: Program, tmp_path: Path) -> None:
    (club / "recipes" / "slow.toml").write_text(RECIPE)
    assert program("library", "page", club, "-o", tmp_path / "pages").code == 0
    ran = program("library", "check", club, "--as", "lines")
    assert "hint T102" in ran.out, "the example's profile alone is none for a real recipe"
    assert "1 reference profile, 2 derivations" in program("library", "check", club).out, (
        "the starter's, with a partner"
    )
    real, starter = (tmp_path / "pages" / f"{name}.html" for name in ("slow", "example-gentle"))
    assert 'id="trials"' not in real.read_text(encoding="utf-8")
    assert 'id="trials"' in starter.read_text(encoding="utf-8")
