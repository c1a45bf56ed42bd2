"""Files are whole or absent, inputs are never touched, nothing that exists is replaced without leave."""

from __future__ import annotations

import os
import stat
import time
from pathlib import Path

import pytest

import profilesmith.write_files as module
from profilesmith.left_over import MOMENT
from profilesmith.write_files import outputs_free, write_whole


def codes(problems: list[object]) -> list[str]:
    return [problem.code for problem in problems]  # type: ignore[attr-defined]


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_several_files_are_written_whole(tmp_path: Path) -> None:
    assert write_whole({tmp_path / "a": b"one\r\n", tmp_path / "b": b"\xff\x00"}, overwrite=False) == []
    assert ((tmp_path / "a").read_bytes(), (tmp_path / "b").read_bytes()) == (b"one\r\n", b"\xff\x00")
    assert names(tmp_path) == ["a", "b"], "nothing is left beside them"


def test_a_new_file_has_the_usual_rights(tmp_path: Path) -> None:
    before = os.umask(0o027)
    try:
        write_whole({tmp_path / "a": b"x"}, overwrite=False)
    finally:
        os.umask(before)
    assert stat.S_IMODE((tmp_path / "a").stat().st_mode) == 0o640


def test_what_exists_is_not_replaced_without_leave(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(b"mine")
    assert codes(outputs_free([tmp_path / "a", tmp_path / "b"], [], overwrite=False)) == ["exists"]
    assert codes(write_whole({tmp_path / "a": b"new"}, overwrite=False)) == ["exists"]
    assert (tmp_path / "a").read_bytes() == b"mine"
    assert names(tmp_path) == ["a"]
    assert outputs_free([tmp_path / "a"], [], overwrite=True) == []
    assert write_whole({tmp_path / "a": b"new"}, overwrite=True) == []
    assert (tmp_path / "a").read_bytes() == b"new"


@pytest.mark.parametrize("overwrite", [False, True])
def test_an_input_is_never_an_output(overwrite: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("base").write_bytes(b"x")
    Path("link").symlink_to("base")
    Path("folder").mkdir()
    for path in ("base", "./base", "folder/../base", "link", str(tmp_path / "base")):
        assert codes(outputs_free([Path(path)], [Path("base")], overwrite)) == ["output-is-input"]


def test_folders_and_missing_folders(tmp_path: Path) -> None:
    assert codes(outputs_free([tmp_path], [], True)) == ["is-folder"]
    assert codes(outputs_free([tmp_path / "none" / "a"], [], True)) == ["no-folder"]
    (tmp_path / "file").write_bytes(b"")
    assert codes(outputs_free([tmp_path / "file" / "a"], [], False)) == ["no-folder"]


def test_a_link_to_nothing_is_taken_for_something(tmp_path: Path) -> None:
    (tmp_path / "a").symlink_to("gone")
    assert codes(outputs_free([tmp_path / "a"], [], False)) == ["exists"]
    assert codes(write_whole({tmp_path / "a": b"new"}, overwrite=False)) == ["exists"]
    assert (tmp_path / "a").is_symlink()


def test_two_outputs_of_one_name(tmp_path: Path) -> None:
    assert codes(outputs_free([tmp_path / "a", tmp_path / "." / "a"], [], True)) == ["same-output"]


@pytest.mark.parametrize(
    "error",
    [
        PermissionError(13, "Permission denied"),
        OSError(28, "No space left on device"),
        OSError(30, "Read-only file system"),
    ],
)
def test_a_folder_that_cannot_be_written(error: OSError, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Told by the error, since the superuser may write everywhere."""

    def refuse(*given: object) -> object:
        raise error

    monkeypatch.setattr(os, "open", refuse)
    problems = write_whole({tmp_path / "a": b"x"}, overwrite=True)
    assert codes(problems) == ["cannot-write"]
    assert error.strerror in problems[0].message
    assert names(tmp_path) == []


@pytest.mark.skipif(os.geteuid() == 0, reason="the superuser may write in any folder")
def test_a_folder_without_leave_to_write(tmp_path: Path) -> None:
    tmp_path.chmod(0o500)
    try:
        assert codes(write_whole({tmp_path / "a": b"x"}, overwrite=True)) == ["cannot-write"]
    finally:
        tmp_path.chmod(0o700)


@pytest.mark.skipif(not Path("/proc/self").is_dir(), reason="there is no /proc on this system")
def test_a_folder_that_nobody_can_write() -> None:
    assert codes(write_whole({Path("/proc/out.cfg"): b"x"}, overwrite=False)) == ["cannot-write"]


@pytest.mark.parametrize("broken", ["write", "fsync", "replace"])
def test_a_write_that_breaks_off_leaves_nothing(broken: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "a").write_bytes(b"mine")

    def fail(*given: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, broken, fail)
    assert codes(write_whole({tmp_path / "a": b"new", tmp_path / "b": b"new"}, overwrite=True)) == ["cannot-write"]
    monkeypatch.undo()
    assert names(tmp_path) == ["a"]
    assert (tmp_path / "a").read_bytes() == b"mine"


def test_ctrl_c_while_writing_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def stop(*given: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "fsync", stop)
    with pytest.raises(KeyboardInterrupt):
        write_whole({tmp_path / "a": b"new"}, overwrite=False)
    assert names(tmp_path) == []


def test_the_second_of_two_files_fails_before_the_first_is_placed(tmp_path: Path) -> None:
    files = {tmp_path / "a": b"x", tmp_path / "none" / "b": b"x"}
    assert codes(write_whole(files, overwrite=False)) == ["cannot-write"]
    assert names(tmp_path) == []


def test_a_file_that_appears_meanwhile_is_not_replaced(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real = module.stage

    def late(path: Path, content: bytes) -> module.Staged:
        staged = real(path, content)
        path.write_bytes(b"theirs")
        return staged

    monkeypatch.setattr(module, "stage", late)
    assert codes(write_whole({tmp_path / "a": b"mine"}, overwrite=False)) == ["exists"]
    assert (tmp_path / "a").read_bytes() == b"theirs"
    assert names(tmp_path) == ["a"]


def test_a_file_system_without_links(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def no_links(*given: object) -> None:
        raise PermissionError(1, "Operation not permitted")

    monkeypatch.setattr(os, "link", no_links)
    assert write_whole({tmp_path / "a": b"new"}, overwrite=False) == []
    assert codes(write_whole({tmp_path / "a": b"newer"}, overwrite=False)) == ["exists"]
    assert (tmp_path / "a").read_bytes() == b"new"


def test_a_name_that_is_too_long_is_a_problem_and_no_fault(tmp_path: Path) -> None:
    path = tmp_path / ("x" * 300)
    problems = outputs_free([path], [], False) or write_whole({path: b"x"}, overwrite=False)
    assert codes(problems) == ["cannot-write"]


def left_behind(path: Path, age: float) -> Path:
    """What a run that was killed a while ago left beside a place."""
    part = path.parent / f".{path.name}.xyz.part"
    part.write_text("half")
    os.utime(part, (time.time() - age, time.time() - age))
    return part


@pytest.mark.parametrize(("age", "stays"), [(0.0, True), (MOMENT / 2, True), (MOMENT * 2, False), (86_400, False)])
def test_what_a_broken_run_left_is_swept_but_not_what_is_a_moment_old(age: float, stays: bool, tmp_path: Path) -> None:
    """A young one may be another run's, between making it and locking it: to sweep that would lose its output."""
    part = left_behind(tmp_path / "out.cfg", age)
    assert write_whole({tmp_path / "out.cfg": b"new"}, False) == []
    assert part.exists() == stays


def test_only_parts_of_the_place_itself_are_swept(tmp_path: Path) -> None:
    other = left_behind(tmp_path / "other.cfg", 86_400)
    assert write_whole({tmp_path / "out.cfg": b"new"}, False) == []
    assert other.exists()
