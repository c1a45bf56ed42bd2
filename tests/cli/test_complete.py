"""Completion: what stands behind each option, and the whole way in a real bash, zsh and fish where they are
installed.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pexpect
import pytest

from profilesmith.cli.app import main

BIN = Path(sys.executable).parent
ENV = {**os.environ, "PATH": f"{BIN}{os.pathsep}{os.environ['PATH']}"}
needs = {
    shell: pytest.mark.skipif(shutil.which(shell) is None, reason=f"{shell} is not installed")
    for shell in ("bash", "zsh", "fish")
}


Offered = Callable[..., set[str]]


@pytest.fixture
def offered(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Offered:
    """What bash is offered for the last word of a call; the shells themselves start the program below."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(sys, "argv", ["profilesmith"])
    monkeypatch.setattr(sys.modules["__main__"], "__package__", "", raising=False)  # where ``python -m`` is told from
    monkeypatch.setenv("_PROFILESMITH_COMPLETE", "complete_bash")

    def offer(*words: str) -> set[str]:
        monkeypatch.setenv("COMP_WORDS", " ".join(("profilesmith", *words)))
        monkeypatch.setenv("COMP_CWORD", str(len(words)))
        with pytest.raises(SystemExit) as ended:
            main()
        shown = capsys.readouterr()
        assert (ended.value.code, shown.err) == (0, "")
        return set(shown.out.split())

    return offer


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
def test_what_is_offered(words: tuple[str, ...], all_of: set[str], none_of: set[str], offered: Offered) -> None:
    got = offered(*words)
    assert got >= all_of
    assert not got & none_of


def test_files_and_the_names_of_a_library_are_offered_too(tmp_path: Path, offered: Offered) -> None:
    (tmp_path / "mine.toml").write_text("")
    (tmp_path / "club").mkdir()
    (tmp_path / "club" / "minnow.toml").write_text("")
    assert offered("derive", "b", "--recipe", "mi") == {"mine.toml"}
    assert offered("derive", "b", "--library", "club", "--recipe", "mi") == {"mine.toml", "minnow"}
    assert "club/" in offered("derive", "b", "--recipe", "c")


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
