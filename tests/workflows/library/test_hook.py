"""The commit hook, run by the pre-commit framework itself in git repositories made here: a bad recipe blocks a commit.

Nothing is fetched: a library's own configuration calls the program that is installed, and the hook that this project
offers to others is run with ``language: system`` in place of ``python``. ``PROFILESMITH_TRY_REPO=1`` runs it as others
do: the framework then installs this project with its dependencies, which needs a package index.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from profilesmith.workflows.library.new_library import new_library

ROOT = Path(__file__).resolve().parents[3]
MANIFEST = ROOT / ".pre-commit-hooks.yaml"
BAD = ('cap = "50 mm/s"', 'cap = "50 kg"')

if os.environ.get("CI") != "true":  # there they must run
    pytest.importorskip("pre_commit")
    if shutil.which("git") is None:
        pytest.skip("git is not installed", allow_module_level=True)


@pytest.fixture
def environment(tmp_path: Path) -> dict[str, str]:
    """No configuration of the user's; a git, a pre-commit and this very program on the path."""
    program = tmp_path / "bin" / "profilesmith"
    program.parent.mkdir()
    program.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m profilesmith "$@"\n')
    program.chmod(0o755)
    kept = {
        name: value
        for name, value in os.environ.items()
        if not name.startswith(("GIT_", "PRE_COMMIT", "PROFILESMITH", "SKIP"))
    }
    return {
        **kept,
        "PATH": f"{program.parent}{os.pathsep}{os.environ['PATH']}",
        "PYTHONPATH": str(ROOT),
        "HOME": str(tmp_path / "home"),
        "PRE_COMMIT_HOME": str(tmp_path / "cache"),
        "GIT_CONFIG_GLOBAL": os.devnull,
        "GIT_CONFIG_SYSTEM": os.devnull,
        "GIT_CONFIG_NOSYSTEM": "1",
        "GIT_AUTHOR_NAME": "nobody",
        "GIT_AUTHOR_EMAIL": "nobody@example.org",
        "GIT_COMMITTER_NAME": "nobody",
        "GIT_COMMITTER_EMAIL": "nobody@example.org",
    }


class Repository:
    """A git repository with a library in it, or below it."""

    def __init__(self, top: Path, library: Path, environment: dict[str, str]) -> None:
        self.top, self.environment = top, environment
        new_library(library, "club", "CC0-1.0")
        self.recipe = library / "recipes" / "example-gentle.toml"
        self.git("init", "--quiet", "--initial-branch=main")

    def run(self, *words: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            words, cwd=self.top, env=self.environment, capture_output=True, text=True, timeout=300, check=False
        )

    def git(self, *words: str) -> str:
        done = self.run("git", *words)
        assert done.returncode == 0, done.stderr
        return done.stdout

    def pre_commit(self, *words: str) -> subprocess.CompletedProcess[str]:
        return self.run(sys.executable, "-m", "pre_commit", *words)

    def commits(self) -> int:
        return len(self.git("log", "--oneline", "--all").splitlines())

    def spoil(self) -> str:
        """Make the recipe unreadable; returns how the finding begins, without the folder."""
        text = self.recipe.read_text(encoding="utf-8")
        self.recipe.write_text(text.replace(*BAD), encoding="utf-8")
        line = text[: text.index(BAD[0])].count("\n") + 1
        return f"recipes/{self.recipe.name}:{line}: error R100 "

    def all_files(self) -> subprocess.CompletedProcess[str]:
        self.git("add", "--all")
        return self.pre_commit("run", "--all-files", "--verbose")


@pytest.fixture
def club(tmp_path: Path, environment: dict[str, str]) -> Repository:
    return Repository(tmp_path / "club", tmp_path / "club", environment)


def test_a_bad_recipe_blocks_the_commit_and_a_good_one_passes(club: Repository) -> None:
    """The way that the README of a new library names: pre-commit install, then commits as usual."""
    assert club.pre_commit("install").returncode == 0
    club.git("add", "--all")
    first = club.run("git", "commit", "--message", "A library")
    assert first.returncode == 0, first.stdout + first.stderr
    assert "check the library of recipes" in first.stderr
    finding = club.spoil()
    blocked = club.run("git", "commit", "--all", "--message", "A bad recipe")
    assert blocked.returncode == 1
    assert finding in blocked.stderr
    assert club.commits() == 1
    text = (
        club.recipe.read_text(encoding="utf-8").replace(BAD[1], 'cap = "45 mm/s"').replace('= "50 mm/s"', '= "45 mm/s"')
    )
    club.recipe.write_text(text.replace('version = "1.0.0"', 'version = "1.1.0"'), encoding="utf-8")
    mended = club.run("git", "commit", "--all", "--message", "A better recipe")
    assert mended.returncode == 0, mended.stdout + mended.stderr
    assert club.commits() == 2


def test_a_recipe_that_changes_without_its_version_is_told(club: Repository) -> None:
    """Inside a hook git sets variables of its own; the last commit is found all the same."""
    assert club.pre_commit("install").returncode == 0
    club.git("add", "--all")
    club.git("commit", "--message", "A library")
    club.recipe.write_text(club.recipe.read_text(encoding="utf-8").replace("50 mm/s", "45 mm/s"), encoding="utf-8")
    done = club.run("git", "commit", "--all", "--message", "Changed")
    assert done.returncode == 1
    assert " R701 " in done.stderr


def test_every_commit_is_checked(club: Repository) -> None:
    """A file that goes and a link match no pattern of files, and are changes of the library all the same."""
    assert club.pre_commit("install").returncode == 0
    club.git("add", "--all")
    club.git("commit", "--message", "A library")
    (club.top / "notes.txt").write_text("Meeting on Tuesday\n")
    club.git("add", "notes.txt")
    done = club.run("git", "commit", "--message", "Notes")
    assert done.returncode == 0
    assert "Passed" in done.stderr
    club.git("rm", "-q", "keymaps/example-sheet.toml")
    gone = club.run("git", "commit", "--message", "A map goes")
    assert gone.returncode == 1
    assert "example-sheet" in gone.stderr


def test_the_manifest_is_valid(club: Repository) -> None:
    """The framework's own judge of ``.pre-commit-hooks.yaml`` and of the configuration that a library begins with."""
    assert club.pre_commit("validate-manifest", str(MANIFEST)).returncode == 0
    assert club.pre_commit("validate-config", str(club.top / ".pre-commit-config.yaml")).returncode == 0


@pytest.mark.parametrize("below", ["", "recipes of the club"])
def test_the_offered_hook(tmp_path: Path, environment: dict[str, str], below: str) -> None:
    """The manifest's own hook, for a library at the top of a repository and for one in a folder of it."""
    import yaml  # comes with pre-commit

    top = tmp_path / "repo"
    top.mkdir()
    repository = Repository(top, top / below, environment)
    hook = yaml.safe_load(MANIFEST.read_text(encoding="utf-8"))[0]
    assert (hook["id"], hook["language"], hook["pass_filenames"]) == ("profilesmith-library", "python", False)
    hook |= {"language": "system"} | ({"args": [below, "--as", "lines"]} if below else {})
    (top / ".pre-commit-config.yaml").write_text(yaml.safe_dump({"repos": [{"repo": "local", "hooks": [hook]}]}))
    good = repository.all_files()
    assert good.returncode == 0, good.stdout + good.stderr
    assert "Passed" in good.stdout
    finding = repository.spoil()
    bad = repository.all_files()
    assert bad.returncode == 1
    assert f"{below}{'/' if below else ''}{finding}" in bad.stdout


def test_check_sh_can_be_called_from_anywhere(club: Repository) -> None:
    script = str(club.top / "check.sh")
    good = subprocess.run(
        [script], cwd="/", env=club.environment, capture_output=True, text=True, timeout=60, check=False
    )
    assert (good.returncode, good.stderr) == (0, "")
    finding = club.spoil()
    bad = subprocess.run(
        [script, "--strict"], cwd="/", env=club.environment, capture_output=True, text=True, timeout=60, check=False
    )
    assert bad.returncode == 1
    assert finding in bad.stdout


def test_check_sh_takes_the_branch_that_a_change_goes_into(club: Repository) -> None:
    """A change that is committed without another version: only the comparison with that branch sees it."""
    club.git("add", "--all")
    club.git("commit", "--message", "A library")
    club.git("checkout", "--quiet", "-b", "change")
    club.recipe.write_text(club.recipe.read_text(encoding="utf-8").replace("50 mm/s", "45 mm/s"), encoding="utf-8")
    club.git("commit", "--all", "--message", "Changed")

    def run(*words: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [str(club.top / "check.sh"), *words],
            cwd="/",
            env=club.environment,
            capture_output=True,
            text=True,
            timeout=60,
            check=False,
        )

    assert " R701 " not in run().stdout
    for words in (("main",), ("main", "--strict"), ("--strict", "--since", "main")):
        done = run(*words)
        assert done.returncode == 1
        assert " error R701 " in done.stdout
    for revision in ("gone", "", "main; touch out"):
        wrong = run(revision)
        assert (wrong.returncode, wrong.stdout) == (2, "")
        assert "--since" in wrong.stderr


def test_evidence_of_two_members_is_merged(club: Repository) -> None:
    """What ``.gitattributes`` promises: two branches that add lines to one file merge without a conflict."""
    path = club.top / "evidence" / "example-gentle.jsonl"
    path.write_text('{"first": 1}\n')
    club.git("add", "--all")
    club.git("commit", "--message", "start")
    for branch in ("left", "right"):
        club.git("checkout", "--quiet", "-b", branch, "main")
        path.write_text(path.read_text() + f'{{"{branch}": 1}}\n')
        club.git("commit", "--all", "--message", branch)
    club.git("merge", "left", "--message", "both")
    assert sorted(path.read_text().splitlines()) == ['{"first": 1}', '{"left": 1}', '{"right": 1}']


@pytest.mark.skipif(
    not os.environ.get("PROFILESMITH_TRY_REPO"), reason="needs a package index: PROFILESMITH_TRY_REPO=1 runs it"
)
def test_as_others_install_it(club: Repository) -> None:
    """``pre-commit try-repo``: the framework builds an environment of its own from this repository's last commit."""
    club.git("add", "--all")
    environment = {name: value for name, value in club.environment.items() if name != "PYTHONPATH"}
    club.environment = environment
    done = club.pre_commit("try-repo", str(ROOT), "profilesmith-library", "--all-files", "--verbose")
    assert done.returncode == 0, done.stdout + done.stderr
    assert "Passed" in done.stdout
