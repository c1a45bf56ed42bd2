"""What was committed is read, and nothing that a stranger's repository names is run."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

from profilesmith.lint import head_commit as module
from profilesmith.lint.head_commit import NO_REVISION, commit_of, committed, head_commit
from profilesmith.lint.lint_file import lint_file
from profilesmith.lint.names import library_names
from tests.git import git

pytestmark = pytest.mark.skipif(not shutil.which("git"), reason="git is not installed")
CASES = Path(__file__).resolve().parents[1] / "cases" / "lint"


@pytest.fixture
def repository(tmp_path: Path) -> Path:
    """A repository with a library in a folder of it, and one recipe committed."""
    folder = tmp_path / "repository" / "club"
    folder.mkdir(parents=True)
    shutil.copyfile(CASES / "R701" / "fail" / "committed.toml", folder / "slow-walls.toml")
    git(folder.parent, "init", "-q")
    git(folder.parent, "add", ".")
    git(folder.parent, "commit", "-q", "-m", "A recipe")
    return folder


def test_unchanged_changed_and_new_files(repository: Path) -> None:
    head = head_commit(repository)
    assert (list(head.blobs), head.why_not) == (["slow-walls.toml"], "")
    path = repository / "slow-walls.toml"
    before = path.read_bytes()
    assert committed(repository, head, path, before) is None
    assert committed(repository, head, path, before + b"\n") == before
    assert committed(repository, head, repository / "new.toml", b"") is None


def test_git_agrees_on_the_object_name(repository: Path) -> None:
    """Outside check: git's own hash of the file (``git hash-object``)."""
    done = subprocess.run(
        ("git", "hash-object", "slow-walls.toml"), cwd=repository, capture_output=True, text=True, check=True
    )
    assert head_commit(repository).blobs["slow-walls.toml"] == done.stdout.strip()


def test_a_change_that_is_committed_is_seen_from_another_revision(repository: Path) -> None:
    git(repository, "branch", "start")
    git(repository, "tag", "first")
    path = repository / "slow-walls.toml"
    path.write_text(path.read_text(encoding="utf-8").replace("40 mm/s", "35 mm/s"), encoding="utf-8")
    git(repository, "commit", "-q", "-a", "-m", "Slower")
    assert [item.number for item in lint_file(path, "recipe", library_names(repository))] == []
    for revision in ("start", "first", "HEAD~1", "start~0", git(repository, "rev-parse", "HEAD~1")):
        found = lint_file(path, "recipe", library_names(repository, revision))
        assert [(item.number, f"since {revision}," in item.message) for item in found] == [("R701", True)]
    assert lint_file(path, "recipe", library_names(repository, "HEAD")) == []


@pytest.mark.parametrize(
    "revision",
    [
        "gone",
        "",
        " ",
        "-h",
        "--all",
        "--git-dir",
        "--output=out",
        "^HEAD",
        "HEAD..HEAD",
        "HEAD:slow-walls.toml",
        "HEAD HEAD",
        "HEAD\nHEAD",
        "HEAD\0",
        "HEAD~9",
        "0" * 40,
        "$(touch out)",
        "HEAD@{upstream}",
    ],
)
def test_what_is_no_revision(repository: Path, revision: str) -> None:
    found = commit_of(repository, revision)
    assert (found.blobs, found.why_not) == ({}, NO_REVISION)
    assert sorted(path.name for path in repository.iterdir()) == ["slow-walls.toml"]


def test_a_branch_that_looks_like_an_option_is_none(repository: Path) -> None:
    """Git itself would take it after ``--end-of-options``; in the program's own call it never gets so far."""
    git(repository, "update-ref", "refs/heads/-q", "HEAD")
    assert commit_of(repository, "-q").why_not == NO_REVISION
    assert list(commit_of(repository, "refs/heads/-q").blobs) == ["slow-walls.toml"]


def test_no_repository_and_no_git_have_no_revision(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert "no git work tree" in commit_of(tmp_path, "main").why_not
    monkeypatch.setenv("PATH", str(tmp_path))
    assert commit_of(tmp_path, "main").why_not == "git is not installed"


def test_names_with_blanks_and_line_ends(repository: Path) -> None:
    odd = repository / "slow\nwalls\t\u00fc.toml"
    odd.write_bytes(b"format = 1\n")
    git(repository, "add", ".")
    git(repository, "commit", "-q", "-m", "Another")
    assert committed(repository, head_commit(repository), odd, b"") == b"format = 1\n"


@pytest.mark.parametrize(("setup", "words"), [(None, "no git work tree"), ("init", "nothing is committed")])
def test_reasons_why_nothing_is_known(setup: str | None, words: str, tmp_path: Path) -> None:
    if setup:
        git(tmp_path, setup, "-q")
    head = head_commit(tmp_path)
    assert head.blobs == {}
    assert words in head.why_not


def test_without_git(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    assert head_commit(tmp_path).why_not == "git is not installed"


def test_what_a_repository_names_is_not_run(repository: Path, tmp_path: Path) -> None:
    """fsmonitor, pager, hooks, text converters, filters, an ssh command and an alias that would each leave a mark."""
    mark = tmp_path / "ran"
    program = tmp_path / "program"
    program.write_text(f"#!/bin/sh\ntouch {mark}\ncat\n", encoding="utf-8")
    program.chmod(0o755)
    hooks = tmp_path / "hooks"
    hooks.mkdir()
    for hook in ("post-checkout", "post-index-change", "reference-transaction", "fsmonitor-watchman"):
        shutil.copy2(program, hooks / hook)
    for key in (
        "core.fsmonitor",
        "core.pager",
        "core.sshCommand",
        "core.editor",
        "core.askPass",
        "diff.external",
        "diff.own.textconv",
        "diff.own.command",
        "filter.own.smudge",
        "filter.own.clean",
        "filter.own.process",
        "alias.ls-tree",
        "alias.cat-file",
        "pager.ls-tree",
        "pager.cat-file",
        "uploadpack.packObjectsHook",
    ):
        git(repository, "config", key, f"!{program}" if key.startswith("alias") else str(program))
    git(repository, "config", "core.hooksPath", str(hooks))
    (repository / ".gitattributes").write_text("* diff=own filter=own\n", encoding="utf-8")
    path = repository / "slow-walls.toml"
    shutil.copyfile(CASES / "R701" / "fail" / "now.toml", path)
    assert [item.number for item in lint_file(path, "recipe")] == ["R701"]
    assert not mark.exists()
    subprocess.run(("git", "status"), cwd=repository, check=False, capture_output=True, timeout=60)
    assert mark.exists()  # an ordinary call does run them: the test can fail


def test_a_bare_repository_in_the_folder_is_not_taken_for_its_own(tmp_path: Path) -> None:
    git(tmp_path, "init", "-q", "--bare")
    assert head_commit(tmp_path).blobs == {}
    assert head_commit(tmp_path).why_not


def test_variables_that_point_elsewhere_do_not_count(
    repository: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("GIT_DIR", str(tmp_path / "nowhere"))
    assert list(head_commit(repository).blobs) == ["slow-walls.toml"]


def test_a_call_that_hangs_is_given_up(repository: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "LONGEST_WAIT_S", 0.0)
    assert head_commit(repository).why_not == "git gave no answer"


@pytest.mark.parametrize(
    ("old", "new", "wanted"),
    [
        ("cap =", "# a remark\ncap =", []),
        ("Slower walls", "Gentler walls", []),
        ("CC0-1.0", "MIT", ["R701"]),
        ("a soft", "a soft", []),
        ("common practice", "common practice, no source", ["R701"]),
        ('"1.0.0"', '"0.9.0"', ["R701"]),
        ('"1.0.0"', '"1.0.1"', []),
    ],
)
def test_which_changes_need_another_version(repository: Path, old: str, new: str, wanted: list[str]) -> None:
    path = repository / "slow-walls.toml"
    path.write_text(path.read_text(encoding="utf-8").replace(old, new), encoding="utf-8")
    assert [item.number for item in lint_file(path, "recipe")] == wanted


def test_a_clone_without_blobs_is_told_and_not_passed_over(repository: Path, tmp_path: Path) -> None:
    """The committed recipe is a promise of another place, and nothing is fetched: the rule is skipped, and says so."""
    git(repository.parent, "config", "uploadpack.allowFilter", "true")
    clone = tmp_path / "clone"
    git(tmp_path, "clone", "-q", "--no-checkout", "--filter=blob:none", repository.parent.as_uri(), str(clone))
    folder = clone / "club"
    folder.mkdir()
    raw = (repository / "slow-walls.toml").read_bytes().replace(b"40 mm/s", b"30 mm/s")
    (folder / "slow-walls.toml").write_bytes(raw)
    head = head_commit(folder)
    assert head.why_not == ""
    assert isinstance(committed(folder, head, folder / "slow-walls.toml", raw), module.Withheld)
    found = [
        item for item in lint_file(folder / "slow-walls.toml", "recipe", library_names(folder)) if item.number == "R701"
    ]
    assert [("git has not the file" in item.message, "skipped" in str(item).lower()) for item in found] == [
        (True, True)
    ]
    assert not list(clone.rglob("*.pack.tmp"))


def test_no_way_of_fetching_is_allowed(repository: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[dict[str, str]] = []

    def run(command: object, **given: object) -> object:
        asked.append(given["env"])  # type: ignore[arg-type]
        raise FileNotFoundError

    monkeypatch.setattr(subprocess, "run", run)
    head_commit(repository)
    assert asked[0]["GIT_ALLOW_PROTOCOL"] == ""


@pytest.mark.parametrize(
    ("old", "new", "version", "expected"),
    [
        ('cap = "40 mm/s"', 'cap = "45 mm/s"', "1.0.1", ["R701"]),
        ('cap = "40 mm/s"', 'cap = "45 mm/s"', "1.1.0", []),
        ('cap = "40 mm/s"', 'cap = "45 mm/s"', "2.0.0", []),
        ("common practice", "common practice, no source", "1.0.1", []),
        ("[[rule]]", 'cautions = ["Watch it."]\n[[rule]]', "1.0.1", ["R701"]),
        ("[[rule]]", '[[rule]]\nwhen = { "machine.drive" = "remote" }', "1.0.1", ["R701"]),
        ("[[rule]]", '[[rule]]\nwhen = { "machine.drive" = "remote" }', "1.1.0", []),
    ],
)
def test_a_patch_is_for_words(repository: Path, old: str, new: str, version: str, expected: list[str]) -> None:
    path = repository / "slow-walls.toml"
    text = path.read_text()
    assert old in text
    assert '"1.0.0"' in text
    path.write_text(text.replace(old, new, 1).replace('"1.0.0"', f'"{version}"'))
    found = lint_file(path, "recipe", library_names(repository))
    assert [item.number for item in found if item.number == "R701"] == expected
