"""A library as a whole: the one that ships, linear time, names, links, processes."""

from __future__ import annotations

import cProfile
import os
import pickle
from pathlib import Path

import pytest

from profilesmith.foundation.problem import Refused
from profilesmith.library.find import shipped
from profilesmith.library.library import load_library
from profilesmith.lint.finding import has_errors
from profilesmith.lint.lint_file import lint_file
from profilesmith.lint.lint_library import files_of_library, lint_description, lint_folder, lint_library, lint_recipe
from profilesmith.lint.names import LibraryNames, library_names
from profilesmith.workflows.lint import kind_of, lint_files

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
    assert not has_errors(skipped)


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
    assert lint_recipe(folder / "recipes" / "slow-1.toml", library) == [
        item for item in apart if item.file.endswith("slow-1.toml")
    ]


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
    """Calls are counted, not seconds: eight times as many recipes may need ten times as many; a quadratic rule, 64 times."""
    few, many = club(tmp_path / "few", 25), club(tmp_path / "many", 200)
    lint_folder(few)  # data are read once
    calls = []
    for folder in (few, many):
        profile = cProfile.Profile()
        profile.runcall(lint_folder, folder)
        calls.append(sum(entry.callcount for entry in profile.getstats()))
    assert calls[1] < 10 * calls[0], calls


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("recipes/a.toml", "recipe"),
        ("a.toml", "recipe"),
        ("keymaps/a.toml", "key map"),
        ("facts/a.toml", "facts"),
        ("evidence/a.jsonl", "evidence"),
    ],
)
def test_kinds_of_files(name: str, kind: str) -> None:
    assert kind_of(Path("club") / name) == kind


def test_named_files_and_folders(tmp_path: Path) -> None:
    folder = club(tmp_path / "club", 2)
    bad = folder / "recipes" / "slow-1.toml"
    bad.write_text(bad.read_text(encoding="utf-8").replace("CC0-1.0", ""), encoding="utf-8")
    assert [item.number for item in lint_files([str(bad), "flexible-pla"])] == ["R110"]
    assert "R110" in [item.number for item in lint_files([str(folder)])]
    with pytest.raises(Refused) as caught:
        lint_files([str(folder / "gone.toml"), "no-such-recipe"])
    assert [problem.code for problem in caught.value.problems] == ["no-file", "not-found"]
