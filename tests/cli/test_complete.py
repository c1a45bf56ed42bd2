"""Completion: what stands behind each option, and the whole way in a real bash, zsh and fish where they are
installed.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pexpect
import pytest

BIN = Path(sys.executable).parent
ENV = {**os.environ, "PATH": f"{BIN}{os.pathsep}{os.environ['PATH']}"}
needs = {
    shell: pytest.mark.skipif(shutil.which(shell) is None, reason=f"{shell} is not installed")
    for shell in ("bash", "zsh", "fish")
}


def offered(folder: Path, *words: str) -> set[str]:
    """What bash is offered for the last word of a call."""
    env = {
        **ENV,
        "_PROFILESMITH_COMPLETE": "complete_bash",
        "COMP_WORDS": " ".join(("profilesmith", *words)),
        "COMP_CWORD": str(len(words)),
    }
    done = subprocess.run(["profilesmith"], env=env, cwd=folder, capture_output=True, text=True, check=False)
    assert done.stderr == ""
    return set(done.stdout.split())


@pytest.mark.parametrize(
    ("words", "all_of", "none_of"),
    [
        (("derive", "b", "--recipe", "part-"), {"part-soft", "part-sandable"}, {"flexible-pla"}),
        (("derive", "b", "--keymap", "w"), {"werkbank"}, {"plain-shop"}),
        (("derive", "b", "--facts", "tpu"), {"tpu-85a-spool", "tpu-95a-spool"}, {"tpu-85a"}),
        (("derive", "b", "--answer", "machine.dr"), {"machine.drive="}, set()),
        (("derive", "b", "--answer", "machine.drive="), {"machine.drive=direct", "machine.drive=remote"}, set()),
        (("derive", "b", "--set", "raft.o"), {"raft.on="}, {"raft.gap="}),
        (("derive", "b", "--set", "raft.on="), {"raft.on=on", "raft.on=off"}, set()),
        (("derive", "b", "--set", "infill.pattern=g"), {"infill.pattern=grid"}, {"infill.pattern=lines"}),
        (("derive", "b", "--as", ""), {"terminal", "html", "md", "json", "checklist", "sheet"}, {"page"}),
        (("explain", "support.o"), {"support.on", "support.overhang_angle"}, {"support.gap"}),
        (("recipe", "show", "fine"), {"fine-finish"}, set()),
        (("vocabulary", "raft."), {"raft.on", "raft.gap"}, set()),
        (("vocabulary", "string"), {"stringing"}, set()),
        (("materials", "PL"), {"PLA"}, set()),
        (("schema", "re"), {"recipe"}, {"ledger"}),
        (("library", "rules", "R70"), {"R701"}, set()),
        (("guide", "re"), {"recipe", "rederive"}, {"start"}),
        (("compare", "a", "b", "--only", "he"), {"heat"}, {"speeds"}),
    ],
)
def test_what_is_offered(words: tuple[str, ...], all_of: set[str], none_of: set[str], tmp_path: Path) -> None:
    got = offered(tmp_path, *words)
    assert got >= all_of
    assert not got & none_of


def test_files_and_the_names_of_a_library_are_offered_too(tmp_path: Path) -> None:
    (tmp_path / "mine.toml").write_text("")
    (tmp_path / "club").mkdir()
    (tmp_path / "club" / "minnow.toml").write_text("")
    assert offered(tmp_path, "derive", "b", "--recipe", "mi") == {"mine.toml"}
    assert offered(tmp_path, "derive", "b", "--library", "club", "--recipe", "mi") == {"mine.toml", "minnow"}
    assert "club/" in offered(tmp_path, "derive", "b", "--recipe", "c")


def script(shell: str) -> str:
    env = {**ENV, "_TYPER_COMPLETE_TEST_DISABLE_SHELL_DETECTION": "1"}
    words = ["profilesmith", "--show-completion", shell]
    return subprocess.run(words, env=env, capture_output=True, text=True, check=True).stdout


@needs["bash"]
def test_bash(tmp_path: Path) -> None:
    call = (
        f"{script('bash')}\nCOMP_WORDS=(profilesmith recipe show flex); COMP_CWORD=3\n"
        '_profilesmith_completion profilesmith\necho "${COMPREPLY[@]}"'
    )
    done = subprocess.run(["bash", "-c", call], env=ENV, cwd=tmp_path, capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["flexible-pla"]


@needs["fish"]
def test_fish(tmp_path: Path) -> None:
    call = f"{script('fish')}\ncomplete -C 'profilesmith recipe show flex'"
    env = {**ENV, "HOME": str(tmp_path)}
    done = subprocess.run(["fish", "-c", call], env=env, cwd=tmp_path, capture_output=True, text=True, check=True)
    assert "flexible-pla" in done.stdout.split()


@needs["zsh"]
def test_zsh(tmp_path: Path) -> None:
    (tmp_path / "completion.zsh").write_text(script("zsh"))
    env = {**ENV, "HOME": str(tmp_path), "TERM": "dumb", "PS1": "ready> "}
    shell = pexpect.spawn("zsh", ["-f", "-i"], cwd=str(tmp_path), env=env, encoding="utf-8", timeout=300)
    try:
        shell.sendline("autoload -U compinit && compinit -u -D && source completion.zsh && echo loa''ded")
        shell.expect("loaded")
        shell.send("profilesmith recipe show flex\t")
        shell.expect("flexible-pla")
    finally:
        shell.close(force=True)
