"""Standard output that takes nothing, streams that are closed, places that are no plain files, names that are too
long.
"""

from __future__ import annotations

import os
import re
import signal
import stat
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.faults.kills import KEY_MAP, RECIPE

Program = Callable[..., Any]
PROGRAM = [sys.executable, "-m", "profilesmith"]
FULL = Path("/dev/full")
needs_full = pytest.mark.skipif(not FULL.exists(), reason="this system has no device that is always full")


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    Path("base.cfg").write_text("rim = 80\nlayer height = 0.2\n", encoding="utf-8")
    Path("map.toml").write_text(KEY_MAP, encoding="utf-8")
    Path("r.toml").write_text(RECIPE.format(40), encoding="utf-8")
    return tmp_path


def run(words: list[str], redirect: str = "") -> subprocess.CompletedProcess[str]:
    """The program behind a shell's redirection."""
    environment = {**os.environ, "PYTHONPATH": str(Path(__file__).parents[2]), "PYTHONDONTWRITEBYTECODE": "1"}
    command = ["sh", "-c", f'exec "$@" {redirect}', "sh", *PROGRAM, *words]
    return subprocess.run(command, capture_output=True, text=True, env=environment, timeout=60, check=False)


DERIVE = ["derive", "base.cfg", "--keymap", "map.toml", "--recipe", "r.toml", "-o", "out.cfg"]
WRITING = {
    "derive": (DERIVE, "out.cfg"),
    "keymap suggest": (["keymap", "suggest", "base.cfg", "-o", "new.toml"], "new.toml"),
    "library new": (["library", "new", "club"], "club"),
    "demo": (["demo", "there"], "there/soft.settings"),
}


@needs_full
@pytest.mark.parametrize("name", WRITING)
def test_what_was_written_is_told_when_standard_output_is_full(name: str, here: Path) -> None:
    words, made = WRITING[name]
    ran = run(words, "> /dev/full")
    assert ran.returncode == 0, ran.stderr
    assert "Standard output cannot be written: No space left on device." in ran.stderr
    assert re.search(rf"Written all the same: .*{re.escape(made.split('/')[0])}", ran.stderr)
    assert "Nothing was written" not in ran.stderr
    assert (here / made).exists()


@needs_full
def test_a_record_is_added_once_when_standard_output_is_full(here: Path) -> None:
    assert run([*DERIVE, "--quiet"]).returncode == 0
    assert run(["library", "new", "club", "--quiet"]).returncode == 0
    ran = run(["evidence", "add", "--derived", "out.cfg", "--outcome", "worked", "--library", "club"], "> /dev/full")
    assert ran.returncode == 0, ran.stderr
    assert "Written all the same: club/evidence/" in ran.stderr
    (lines,) = [path.read_text(encoding="utf-8").splitlines() for path in Path("club/evidence").glob("*.jsonl")]
    assert len(lines) == 1


@needs_full
@pytest.mark.parametrize("words", [["vocabulary"], ["--help"], ["--version"], ["recipe", "list"]], ids=str)
def test_what_only_says_something_fails_when_it_cannot(words: list[str], here: Path) -> None:
    ran = run(words, "> /dev/full")
    assert ran.returncode == 2, ran.stderr
    assert "Standard output cannot be written: No space left on device." in ran.stderr
    assert "fault" not in ran.stderr


def test_a_reader_that_has_seen_enough_does_not_stop_the_writing(here: Path) -> None:
    ran = run(DERIVE, "| true")
    assert (here / "out.cfg").read_text(encoding="utf-8").startswith("rim = 40\n"), ran.stderr


@pytest.mark.parametrize("closed", [">&-", "2>&-", ">&- 2>&-", "<&-", "<&- >&- 2>&-"])
@pytest.mark.parametrize("words", [DERIVE, ["vocabulary"], ["derive", "none.cfg", "--keymap", "map.toml"]], ids=len)
def test_closed_streams_are_no_fault(words: list[str], closed: str, here: Path) -> None:
    ran = run(words, closed)
    assert ran.returncode == (2 if "none.cfg" in words else 0), ran.stderr
    assert "Traceback" not in ran.stdout + ran.stderr
    assert (here / "out.cfg").exists() == (words == DERIVE)


@pytest.mark.parametrize("at", [0.03, 0.06, 0.1, 0.15, 0.2])
def test_ctrl_c_at_the_start(at: float, here: Path) -> None:
    """Python's own start, before any line of ours, cannot be spoken for: it ends by the signal, too."""
    environment = {**os.environ, "PYTHONPATH": str(Path(__file__).parents[2])}
    process = subprocess.Popen(
        [*PROGRAM, *DERIVE],
        env=environment,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),
    )
    time.sleep(at)
    process.send_signal(signal.SIGINT)
    _, shown = process.communicate(timeout=60)
    ours = b"profilesmith/cli" in shown or b"profilesmith/workflows" in shown
    assert not ours, shown
    assert process.returncode in (0, 130, -signal.SIGINT) or b"profilesmith" not in shown, shown
    assert process.returncode != 0 or (here / "out.cfg").exists()


def waited(number: int, frame: object) -> None:
    raise AssertionError("the program waits for a pipe")


def lay_out_place(kind: str) -> None:
    """Something of our own that is no plain file: should it be replaced after all, the machine keeps its own."""
    if kind == "pipe":
        os.mkfifo("place")
        return
    null = os.stat("/dev/null")
    try:
        os.mknod("place", 0o666 | stat.S_IFCHR, null.st_rdev)
    except PermissionError:
        pytest.skip("only root makes a device")


@pytest.mark.parametrize("kind", ["pipe", "device"])
@pytest.mark.parametrize("overwrite", [False, True])
def test_only_plain_files_are_replaced(kind: str, overwrite: bool, here: Path, program: Program) -> None:
    """As root, --overwrite once replaced the null device."""
    lay_out_place(kind)
    before = os.stat("place")
    for words in ([*DERIVE[:-1], "place"], ["keymap", "suggest", "base.cfg", "-o", "place"]):
        ran = program(*words, *(["--overwrite"] if overwrite else []))
        assert (ran.code, ran.codes) == (2, ("no-plain-file",)), ran.err
    assert os.stat("place")[:3] == before[:3]


@pytest.mark.parametrize(
    "words",
    [
        ["derive", "pipe", "--keymap", "map.toml"],
        ["derive", "base.cfg", "--keymap", "./pipe"],
        ["derive", "base.cfg", "--keymap", "map.toml", "--recipe", "./pipe"],
        ["derive", "base.cfg", "--keymap", "map.toml", "--facts", "./pipe"],
        ["keymap", "suggest", "pipe"],
        ["batch", "pipe"],
        ["check", "pipe", "--keymap", "map.toml"],
        ["check", "base.cfg", "--keymap", "map.toml", "--motion", "pipe"],
        ["explain", "outer_wall.speed", "pipe", "--keymap", "map.toml"],
        ["compare", "base.cfg", "pipe", "--keymap", "map.toml"],
        ["distil", "--pair", "pipe", "base.cfg", "--keymap", "map.toml", "-o", "new.toml"],
        ["keymap", "check", "map.toml", "pipe"],
        ["recipe", "show", "./pipe"],
        ["recipe", "compare", "r.toml", "./pipe"],
        ["coupon", "next", "pipe"],
        ["motion", "check", "pipe"],
        ["motion", "check", "r.toml", "--ledger", "pipe.ledger.json"],
        ["motion", "check", "r.toml", "--words", "pipe"],
        ["motion", "compare", "pipe", "pipe"],
        ["motion", "suggest", "pipe"],
        ["derive", "/dev/zero", "--keymap", "map.toml"],
    ],
    ids=" ".join,
)
def test_inputs_that_are_no_plain_files_are_not_opened(words: list[str], here: Path, program: Program) -> None:
    """A pipe that nobody writes to would be waited for without end."""
    os.mkfifo("pipe")
    os.mkfifo("pipe.ledger.json")
    signal.signal(signal.SIGALRM, waited)
    signal.alarm(300)
    try:
        ran = program(*words)
    finally:
        signal.alarm(0)
    assert (ran.code, ran.codes) == (2, ("no-plain-file",)), ran.err
    assert "a pipe or a device" in ran.err


def test_a_name_with_a_slash_behind_it_means_a_folder(here: Path, program: Program) -> None:
    ran = program(*DERIVE[:-1], "new/")
    assert ran.code == 0, ran.err
    assert Path("new/base.cfg").read_text(encoding="utf-8").startswith("rim = 40\n")


LONG = "x" * 300


@pytest.mark.parametrize(
    "words",
    [
        [*DERIVE[:-1], LONG],
        [*DERIVE[:-1], "x" * 250],
        [*DERIVE, "--report", f"{LONG}.md"],
        ["review", LONG],
        ["derive", LONG, "--keymap", "map.toml"],
        ["derive", "base.cfg", "--keymap", f"{LONG}.toml"],
        ["keymap", "suggest", "base.cfg", "-o", f"{LONG}.toml"],
        ["demo", LONG],
        ["rederive", LONG, "--onto", "base.cfg", "-o", "out.cfg"],
        ["recipe", "list", "--library", LONG],
        ["batch", LONG],
    ],
    ids=lambda words: " ".join(words)[:30],
)
def test_names_that_are_too_long(words: list[str], here: Path, program: Program) -> None:
    before = {path.name for path in here.iterdir()}
    ran = program(*words)
    assert ran.code == 2, ran.err
    assert {path.name for path in here.iterdir()} == before
