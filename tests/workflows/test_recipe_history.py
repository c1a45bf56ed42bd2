"""The versions of a recipe on its page, from a real small repository: days, changes, what comes out otherwise."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import html5lib
import pytest

from profilesmith.lint.past import past_of
from tests.git import git

Program = Callable[..., Any]
pytestmark = pytest.mark.skipif(not shutil.which("git"), reason="git is not installed")
X = "{http://www.w3.org/1999/xhtml}"
RECIPE = "recipes/bend-<b>gently.toml"


def write(club: Path, version: str, cap: str, why: str = "It buckles.") -> None:
    (club / RECIPE).write_text(
        f'''format = 1
[recipe]
name = "bend-<b>gently"
version = "{version}"
title = "Bends gently"
from = "rigid PLA"
to = "flexible PLA"
licence = "CC0-1.0"
[[rule]]
setting = "outer_wall.speed"
cap = "{cap}"
why = "{why}"
source = "common practice"
''',
        encoding="utf-8",
    )


@pytest.fixture
def club(tmp_path: Path, program: Program, monkeypatch: pytest.MonkeyPatch) -> Path:
    """1.0.0 on one day; 1.1.0 on a branch, with a slip that the next commit mends; merged; 1.1.1 not committed."""
    monkeypatch.chdir(tmp_path)
    assert program("library", "new", "club", "-q").code == 0
    folder = tmp_path / "club"
    text = (folder / "profiles/example-sheet.settings").read_text(encoding="utf-8")
    (folder / "profiles/bench.settings").write_text(f"; of a member\n{text}", encoding="utf-8")
    library = (folder / "library.toml").read_text(encoding="utf-8").replace("example-sheet.settings", "bench.settings")
    (folder / "library.toml").write_text(library.replace('name = "example"', 'name = "bench"'), encoding="utf-8")
    git(tmp_path, "init", "-q", "-b", "main", "club", day="2030-01-01")
    for day, branch, version, cap in (
        ("2030-01-02", "main", "1.0.0", "35 mm/s"),
        ("2030-02-03", "slower", "1.1.0", "3 mm/s"),
        ("2030-02-04", "slower", "1.1.0", "30 mm/s"),
    ):
        if branch != "main" and version == "1.1.0" and cap == "3 mm/s":
            git(folder, "checkout", "-q", "-b", branch, day=day)
        write(folder, version, cap)
        git(folder, "add", "-A", day=day)
        git(folder, "commit", "-q", "-m", version, day=day)
    git(folder, "checkout", "-q", "main", day="2030-03-05")
    git(folder, "merge", "-q", "--no-ff", "-m", "Slower", "slower", day="2030-03-05")
    write(folder, "1.1.1", "30 mm/s", "It buckles when pushed fast.")
    return folder


def versions(page: Path) -> list[str]:
    root = html5lib.parse(page.read_text(encoding="utf-8"))
    section = next(item for item in root.iter(f"{X}section") if item.get("id") == "versions")
    return [" ".join("".join(item.itertext()).split()) for item in section if item.tag != f"{X}h2"]


def test_each_version_has_its_day_and_what_it_changed(club: Path, program: Program) -> None:
    ran = program("library", "page", "club", "-o", "pages")
    assert ran.code == 0, ran.err
    (page,) = (path for path in Path("pages").glob("bend*.html"))
    newest, middle, oldest = versions(page)
    assert newest.startswith("1.1.1 not committed yet 1 rule changed.")
    assert "reason: It buckles when pushed fast. reason before: It buckles." in newest
    assert "On bench: " in newest
    assert "all as before." in newest
    assert middle == (
        "1.1.0 2030-03-05 1 rule changed. Rules that changed outer_wall.speed (rule 1) "
        "asks: at most 30 mm/s; was: at most 35 mm/s (tighter now)"
    ), "the day is the merge's, and a slip in between is none of a version"
    assert oldest == "1.0.0 2030-01-02 the oldest version that is known"


def test_the_newest_change_is_tried_on_reference_profiles(club: Path, program: Program) -> None:
    write(club, "1.2.0", "20 mm/s")
    program("library", "page", "club", "-o", "pages")
    (page,) = (path for path in Path("pages").glob("bend*.html"))
    newest = versions(page)[0]
    assert "On bench: 1 value comes out otherwise outer_wall.speed: 20 mm/s; was 30 mm/s" in newest
    assert "<b>gently" not in page.read_text(encoding="utf-8"), "a name of strangers stays text"
    program("library", "page", "club", "-o", "pages-md", "--as", "markdown")
    (text,) = (path.read_text(encoding="utf-8") for path in Path("pages-md").glob("bend*.md"))
    assert "**1.2.0** (not committed yet): 1 rule changed." in text
    assert "**1.1.0** (2030-03-05): 1 rule changed." in text


def test_without_git_or_with_one_version_nothing_is_said_of_versions(club: Path, program: Program) -> None:
    shutil.rmtree(club / ".git")
    assert program("library", "page", "club", "-o", "pages").code == 0
    assert not any('id="versions"' in page.read_text(encoding="utf-8") for page in Path("pages").glob("*.html"))


def test_the_past_of_files_is_read_by_their_names_alone(club: Path) -> None:
    git(club, "add", "-A", day="2030-04-01")
    git(club, "commit", "-q", "-m", "1.1.1", day="2030-04-01")
    found = past_of(club, (RECIPE, "recipes/*.toml", "recipes/none.toml"))
    assert list(found) == [RECIPE]
    assert [item.day for item in found[RECIPE]] == ["2030-01-02", "2030-03-05", "2030-04-01"]
    assert found[RECIPE][-1].raw == (club / RECIPE).read_bytes()
    (club / RECIPE).unlink()
    git(club, "add", "-A", day="2030-04-02")
    git(club, "commit", "-q", "-m", "gone", day="2030-04-02")
    assert [item.day for item in past_of(club, (RECIPE,))[RECIPE]][-1] == "2030-04-01"
