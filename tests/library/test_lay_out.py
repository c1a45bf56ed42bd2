"""A new library: every template used, words put in safely, and a folder that is whole or as it was."""

from __future__ import annotations

import json
import os
import resource
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from profilesmith.library.lay_out import FILES, PROGRAMS, TEMPLATES, in_the_way, lay_out, library_files

SCHEMAS = {"recipe.schema.json": "{}\n"}


def tree(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


def test_every_template_is_used_once() -> None:
    assert sorted(name for name, _ in FILES) == sorted(path.name for path in TEMPLATES.iterdir())
    assert len({place for _, place in FILES}) == len(FILES)
    assert {place for _, place in FILES} >= set(PROGRAMS)


def test_words_are_put_in_once_and_quoted() -> None:
    """A name that looks like a mark of the templates stays a name."""
    files = library_files("{licence} of Zoë", "CC-BY-4.0", SCHEMAS)
    described = tomllib.loads(files["library.toml"].decode())["library"]
    assert (described["name"], described["licence"]) == ("{licence} of Zoë", "CC-BY-4.0")
    assert files["README.md"].decode().startswith("# {licence} of Zoë\n")
    assert tomllib.loads(files["recipes/example-gentle.toml"].decode())["recipe"]["licence"] == "CC-BY-4.0"
    for place, content in files.items():
        if not place.startswith(("library", "README")):
            assert not any(mark in content for mark in (b"{name}", b"{title}", b"{licence}", b"{licence_text}")), place
    assert json.loads(files["schemas/recipe.schema.json"]) == {}


@pytest.mark.parametrize("there", [False, True])
def test_laid_out_into_a_new_or_an_empty_folder(tmp_path: Path, there: bool) -> None:
    folder = tmp_path / "club"
    if there:
        folder.mkdir()
        number = folder.stat().st_ino
    files = library_files("club", "CC0-1.0", SCHEMAS)
    lay_out(folder, files)
    assert tree(folder) == {place: files[place] for place in sorted(files)}
    assert [path.name for path in tmp_path.iterdir()] == ["club"]
    assert os.access(folder / "check.sh", os.X_OK)
    assert folder.stat().st_mode & 0o777 == 0o777 & ~umask()
    assert not there or folder.stat().st_ino == number


def umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


@pytest.mark.parametrize("there", [False, True])
@pytest.mark.parametrize("at", [0, 3, len(FILES)])
def test_a_failure_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, there: bool, at: int) -> None:
    folder, done = tmp_path / "club", []
    if there:
        folder.mkdir()

    def full(handle: int) -> None:
        done.append(handle)
        if len(done) > at:
            raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space"):
        lay_out(folder, library_files("club", "CC0-1.0", SCHEMAS))
    assert list(tmp_path.iterdir()) == ([folder] if there else [])
    assert not there or list(folder.iterdir()) == []


@pytest.mark.parametrize("at", [0, 4])
def test_a_failure_while_moving_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, at: int) -> None:
    folder, done, rename = tmp_path / "club", [], os.rename
    folder.mkdir()

    def failing(old: Path, new: Path) -> None:
        done.append(new)
        if len(done) > at:
            raise OSError(5, "Input/output error")
        rename(old, new)

    monkeypatch.setattr(os, "rename", failing)
    with pytest.raises(OSError, match="Input/output"):
        lay_out(folder, library_files("club", "CC0-1.0", SCHEMAS))
    assert list(folder.iterdir()) == []


def test_the_description_comes_last(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without library.toml a folder is no library, so a half moved one is never taken for one."""
    folder, moved, rename = tmp_path / "club", [], os.rename
    folder.mkdir()

    def noted(old: Path, new: Path) -> None:
        moved.append(Path(new).name)
        rename(old, new)

    monkeypatch.setattr(os, "rename", noted)
    lay_out(folder, library_files("club", "CC0-1.0", SCHEMAS))
    assert moved[-1] == "library.toml"
    assert len(moved) > 5


def test_a_limit_of_the_system_leaves_nothing(tmp_path: Path) -> None:
    """A real limit on the size of files: the README is larger than 2,000 bytes."""
    code = (
        "import sys; sys.argv = ['profilesmith', 'library', 'new', 'club']; from "
        "profilesmith.cli.app import main; main()"
    )

    def small() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (2000, 2000))

    environment = {**os.environ, "PYTHONDONTWRITEBYTECODE": "1", "PYTHONPATH": str(Path(__file__).resolve().parents[2])}
    done = subprocess.run(
        [sys.executable, "-c", code],
        cwd=tmp_path,
        env=environment,
        preexec_fn=small,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert (done.returncode, done.stdout) == (2, "")
    assert "cannot be written" in done.stderr
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("content", "code"),
    [
        ((), None),
        ((".git/HEAD",), None),
        (("notes.txt",), "exists"),
        ((".hidden",), "exists"),
        ((".git/HEAD", "a"), "exists"),
    ],
)
def test_what_is_in_the_way(tmp_path: Path, content: tuple[str, ...], code: str | None) -> None:
    folder = tmp_path / "club"
    folder.mkdir()
    for name in content:
        (folder / name).parent.mkdir(exist_ok=True)
        (folder / name).write_text("x")
    found = in_the_way(folder)
    assert (found.code if found else None) == code


def test_a_file_or_a_missing_folder_is_in_the_way(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    assert in_the_way(tmp_path / "file").code == "exists"
    assert in_the_way(tmp_path / "a" / "b").code == "no-folder"
    (tmp_path / "dangling").symlink_to(tmp_path / "nowhere")
    assert in_the_way(tmp_path / "dangling").code == "exists"
    assert in_the_way(tmp_path / "new") is None
