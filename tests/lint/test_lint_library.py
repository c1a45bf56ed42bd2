"""A library as a whole: the one that ships, linear time, names, links, processes."""

from __future__ import annotations

import cProfile
import os
import pickle
from pathlib import Path

import pytest

from profilesmith.library.find import shipped
from profilesmith.library.library import load_library
from profilesmith.lint.lint_file import lint_file
from profilesmith.lint.lint_library import files_of_library, lint_description, lint_folder, lint_library
from profilesmith.lint.names import LibraryNames, library_names

RECIPE = """format = 1

[recipe]
name = "{name}"
version = "1.0.0"
title = "Slower walls"
licence = "CC0-1.0"

[[rule]]
setting = "outer_wall.speed"
cap = "40 mm/s"
why = "A soft strand buckles when it is pushed fast."
source = "common practice"

[[example]]
given = {{ "outer_wall.speed" = "80 mm/s" }}
expect = {{ "outer_wall.speed" = "40 mm/s" }}
"""
DESCRIPTION = 'format = 1\n\n[library]\nname = "club"\nlicence = "CC0-1.0"\n'


def club(folder: Path, recipes: int) -> Path:
    (folder / "recipes").mkdir(parents=True)
    (folder / "library.toml").write_text(DESCRIPTION, encoding="utf-8")
    for number in range(recipes):
        (folder / "recipes" / f"slow-{number}.toml").write_text(RECIPE.format(name=f"slow-{number}"), encoding="utf-8")
    return folder


def test_the_shipped_library_is_clean_in_strict_mode() -> None:
    assert [item for item in lint_folder(shipped(), strict=True) if item.severity != "skipped"] == []


def test_the_shipped_library_was_looked_at() -> None:
    library, _ = load_library(shipped())
    assert library is not None
    kinds = [kind for kind, _ in files_of_library(library)]
    assert kinds.count("recipe") >= 7
    assert kinds.count("key map") >= 3
    assert kinds.count("facts") >= 6


def test_it_says_that_versions_were_not_compared(tmp_path: Path) -> None:
    found = lint_folder(club(tmp_path / "club", 1), strict=True)
    skipped = [item for item in found if item.severity == "skipped"]
    assert [item.number for item in skipped] == ["R701"]
    assert "git" in skipped[0].message
    assert not any(item.severity == "error" for item in skipped)


def test_file_by_file_gives_the_same_as_all_at_once(tmp_path: Path) -> None:
    """As several processes do it: names travel, findings come back."""
    folder = club(tmp_path / "club", 3)
    (folder / "recipes" / "slow-1.toml").write_text(
        RECIPE.format(name="slow-2").replace("source =", "origin ="), encoding="utf-8"
    )
    library, _ = load_library(folder)
    assert library is not None
    names: LibraryNames = pickle.loads(pickle.dumps(library_names(folder)))
    apart = lint_description(library, names)
    for kind, path in files_of_library(library):
        apart += pickle.loads(pickle.dumps(lint_file(path, kind, names)))
    assert apart == lint_library(library, strict=False)
    assert any(item.number == "R103" for item in apart)


def test_two_recipes_that_differ_in_case_alone_shadow_each_other(tmp_path: Path) -> None:
    folder = club(tmp_path / "club", 1)
    (folder / "recipes" / "Slow-0.toml").write_text(RECIPE.format(name="Slow-0"), encoding="utf-8")
    if len(list((folder / "recipes").iterdir())) < 2:
        pytest.skip("this disk does not tell large letters from small")
    found = [item for item in lint_folder(folder) if item.number == "R113"]
    assert sorted(Path(item.file).name for item in found) == ["Slow-0.toml", "slow-0.toml"]


def test_links_out_of_the_library_are_told_and_not_read(tmp_path: Path) -> None:
    folder = club(tmp_path / "club", 1)
    outside = tmp_path / "outside.toml"
    outside.write_text("this is no TOML, and must not be quoted: secret", encoding="utf-8")
    try:
        os.symlink(outside, folder / "recipes" / "linked.toml")
        os.symlink(tmp_path, folder / "keymaps")
    except OSError:
        pytest.skip("links cannot be made here")
    found = lint_folder(folder)
    assert [item.message.split(" ")[0] for item in found if item.number == "L113"] == ["keymaps", "recipes/linked.toml"]
    assert "secret" not in str(found)
    assert not any(item.file.endswith(("linked.toml", "outside.toml")) for item in found)


def test_work_grows_with_the_number_of_recipes_and_no_faster(tmp_path: Path) -> None:
    """Calls are counted, not seconds: eight times as many recipes may need ten times as many; a quadratic rule, 64
    times.
    """
    few, many = club(tmp_path / "few", 25), club(tmp_path / "many", 200)
    lint_folder(few)  # data are read once
    calls = []
    for folder in (few, many):
        profile = cProfile.Profile()
        profile.runcall(lint_folder, folder)
        calls.append(sum(entry.callcount for entry in profile.getstats()))
    assert calls[1] < 10 * calls[0], calls
