"""A full disk, a folder that may not be written, files that change while they are read, two writers of one output."""

from __future__ import annotations

import hashlib
import json
import os
import resource
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from multiprocessing import get_context
from pathlib import Path
from typing import Any

import pytest

import profilesmith.workflows.read as read_module
import profilesmith.write_files as module
from profilesmith.foundation.problem import Refused
from profilesmith.workflows.derive import derive, write
from profilesmith.workflows.request import Request
from profilesmith.write_files import write_whole
from tests.faults.kills import LEDGER, OUT, derivations, lay_out

WORDS = ["derive", "base.cfg", "--keymap", "map.toml", "--recipe", "r40.toml", "--quiet", "--report", "report.md"]
NOBODY = 65534


def run(folder: Path, *more: str, before: Callable[[], None] | None = None) -> subprocess.CompletedProcess[str]:
    """The program in a process of its own. before: what is set in it first."""
    command = [sys.executable, "-m", "profilesmith", *WORDS, *more]
    environment = {**os.environ, "PYTHONPATH": str(Path(__file__).parents[2]), "PYTHONDONTWRITEBYTECODE": "1"}
    return subprocess.run(
        command, cwd=folder, env=environment, capture_output=True, text=True, check=False, timeout=60, preexec_fn=before
    )


def names(folder: Path) -> set[str]:
    return {path.name for path in folder.iterdir()}


@pytest.mark.parametrize("old", [False, True])
def test_a_full_disk(old: bool, tmp_path: Path) -> None:
    """A limit on the size of files stands for the full disk: the error comes in the middle of a write."""
    lay_out(tmp_path, lines=3000)
    if old:
        (tmp_path / OUT).write_bytes(b"mine")
    before = {path.name: path.read_bytes() for path in tmp_path.iterdir()}

    def small() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (4096, 4096))

    ran = run(tmp_path, "-o", OUT, "--overwrite", before=small)
    assert ran.returncode == 2, ran.stderr
    assert "The file cannot be written: File too large." in ran.stderr
    assert "Traceback" not in ran.stderr
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == before


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of 48 kB in memory; skipped where none may be mounted."""
    place = tmp_path / "disk"
    place.mkdir()
    mount = shutil.which("mount")
    if (
        mount is None
        or subprocess.run(
            [mount, "-t", "tmpfs", "-o", "size=48k", "tmpfs", str(place)], capture_output=True, check=False
        ).returncode
    ):
        pytest.skip("no small disk can be mounted here")
    yield place
    subprocess.run(["umount", str(place)], check=True)


@pytest.mark.parametrize("left", [4, 12, 20])
def test_a_disk_that_is_really_full(left: int, small_disk: Path, tmp_path: Path) -> None:
    """left: kB that are free, too few for the text, for its ledger, for both together."""
    lay_out(tmp_path, lines=600)
    (small_disk / OUT).write_bytes(b"mine")
    (small_disk / "filler").write_bytes(b"\0" * 1024 * (44 - left))
    before = {path.name: path.read_bytes() for path in small_disk.iterdir()}
    ran = run(tmp_path, "-o", str(small_disk / OUT), "--overwrite")
    assert ran.returncode == 2, ran.stderr
    assert "The file cannot be written: No space left on device." in ran.stderr
    assert {path.name: path.read_bytes() for path in small_disk.iterdir()} == before


@pytest.mark.parametrize("overwrite", [False, True])
def test_the_disk_fills_after_the_first_file(overwrite: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The second file cannot be placed: the first is taken back, to what it was."""
    if overwrite:
        (tmp_path / "one").write_bytes(b"old")
    name = "replace" if overwrite else "link"
    real, calls = getattr(os, name), [0]

    def full(source: Any, target: Any, **given: Any) -> None:
        calls[0] += 1
        if Path(target).name == "two":
            raise OSError(28, "No space left on device")
        real(source, target, **given)

    monkeypatch.setattr(os, name, full)
    if not overwrite:
        monkeypatch.setattr(os, "replace", full)
    problems = write_whole({tmp_path / "one": b"new", tmp_path / "two": b"new"}, overwrite)
    assert [problem.code for problem in problems] == ["cannot-write"]
    assert calls[0] >= 2
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == ({"one": b"old"} if overwrite else {})


@pytest.mark.skipif(not hasattr(os, "fork"), reason="there is no fork on this system")
def test_a_folder_that_may_not_be_written() -> None:
    """A child that is nobody, since the superuser may write everywhere."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        lay_out(folder)
        made = derivations(folder)[0]
        write_whole({folder / "first": b"so that all is imported"}, overwrite=False)
        before = names(folder)
        folder.chmod(0o555)
        told = as_nobody(lambda: write(made, str(folder / OUT)))
        folder.chmod(0o755)
        assert names(folder) == before
    assert told.startswith(f"2 {folder / OUT}: The file cannot be written: Permission denied.")


def as_nobody(action: Callable[[], object]) -> str:
    """What a child without rights is refused: its exit code and the words."""
    listen, tell = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            if os.geteuid() == 0:
                os.setgid(NOBODY)
                os.setuid(NOBODY)
            action()
        except Refused as refused:
            os.write(tell, f"{refused.exit_code} {refused}".encode())
        finally:
            os._exit(0)
    os.close(tell)
    os.waitpid(child, 0)
    with os.fdopen(listen, "rb") as stream:
        return stream.read().decode()


def test_a_file_that_changes_while_it_is_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The ledger names the bytes that were read, whatever lies there afterwards."""
    lay_out(tmp_path)
    base = tmp_path / "base.cfg"
    was = base.read_bytes()
    real = read_module._bytes

    def then_changed(name: str, *given: Any) -> bytes | None:
        raw = real(name, *given)
        base.write_bytes(b"rim = 99\n")
        return raw

    monkeypatch.setattr(read_module, "_bytes", then_changed)
    made = derive(
        Request(bases=(str(base),), key_map=str(tmp_path / "map.toml"), recipes=(str(tmp_path / "r40.toml"),))
    )
    write(made, str(tmp_path / OUT))
    ledger = json.loads((tmp_path / LEDGER).read_text(encoding="utf-8"))
    assert ledger["files"][0]["sha256"] == hashlib.sha256(was).hexdigest()
    assert (tmp_path / OUT).read_bytes() == was.replace(b"rim = 80", b"rim = 40")
    assert base.read_bytes() == b"rim = 99\n"


def _writer(folder: str, number: int, overwrite: bool, times: int) -> list[list[str]]:
    content = {Path(folder, name): bytes([65 + number]) * 200_000 for name in ("one", "two")}
    return [[problem.code for problem in module.write_whole(content, overwrite)] for _ in range(times)]


@pytest.mark.parametrize("overwrite", [False, True])
def test_two_writers_of_one_output(overwrite: bool, tmp_path: Path) -> None:
    times = 10 if overwrite else 1
    with get_context("spawn").Pool(2) as pool:
        told = pool.starmap(_writer, [(str(tmp_path), number, overwrite, times) for number in range(2)])
    for name in ("one", "two"):
        content = (tmp_path / name).read_bytes()
        assert len(content) == 200_000
        assert len(set(content)) == 1, "one whole winner"
    assert names(tmp_path) == {"one", "two"}
    flat = sorted(code for codes in told for each in codes for code in each)
    assert flat == ([] if overwrite else ["exists"])
