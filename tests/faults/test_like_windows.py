"""The writing rooms on a stand-in for Windows' file system: what is open is neither moved nor deleted."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from profilesmith.catalogue.write_folder import write_folder
from profilesmith.evidence.append_record import append_lines
from profilesmith.foundation.read_file import is_on_a_drive, names_a_file, seen_from
from profilesmith.library.lay_out import lay_out
from profilesmith.workflows.derive import write
from profilesmith.write_files import write_whole
from profilesmith.write_many import write_many
from tests.faults.kills import LEDGER, OUT, derivations
from tests.faults.kills import lay_out as lay_out_base
from tests.faults.like_windows import FDS, be_like_windows

pytestmark = pytest.mark.skipif(not FDS.is_dir(), reason="the stand-in looks into /proc")


@pytest.fixture(autouse=True)
def _windows(monkeypatch: pytest.MonkeyPatch) -> None:
    be_like_windows(monkeypatch)


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_the_stand_in_refuses(tmp_path: Path) -> None:
    path = tmp_path / "a"
    path.write_bytes(b"x")
    with path.open("rb") as stream:
        for act in (path.unlink, lambda: path.rename(tmp_path / "b"), lambda: os.replace(path, tmp_path / "b")):
            with pytest.raises(PermissionError):
                act()
        with pytest.raises(OSError, match="Bad file descriptor"):
            os.fsync(stream.fileno())
    path.unlink()


@pytest.mark.parametrize("overwrite", [False, True])
def test_files_are_whole(overwrite: bool, tmp_path: Path) -> None:
    if overwrite:
        (tmp_path / "a").write_bytes(b"old")
    assert write_whole({tmp_path / "a": b"new", tmp_path / "b": b"new"}, overwrite) == []
    assert write_many([{tmp_path / "c": b"1"}, {tmp_path / "d": b"2"}], overwrite) == [[], []]
    assert names(tmp_path) == ["a", "b", "c", "d"]
    assert [problem.code for problem in write_whole({tmp_path / "a": b"x"}, False)] == ["exists"]
    assert (tmp_path / "a").read_bytes() == b"new"


def test_what_is_held_open_by_another_is_told(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(b"old")
    with (tmp_path / "a").open("rb"):
        assert [problem.code for problem in write_whole({tmp_path / "a": b"new"}, True)] == ["cannot-write"]
    assert (tmp_path / "a").read_bytes() == b"old"
    assert names(tmp_path) == ["a"]


def test_a_derivation_is_written_and_written_over(tmp_path: Path) -> None:
    lay_out_base(tmp_path)
    made = derivations(tmp_path)
    before = names(tmp_path)
    write(made[0], str(tmp_path / OUT))
    write(made[0], str(tmp_path / OUT), overwrite=True)
    assert names(tmp_path) == sorted([*before, OUT, LEDGER])


def test_folders_and_records(tmp_path: Path) -> None:
    lay_out(tmp_path / "club", {"library.toml": b"x", "recipes/a.toml": b"y"})
    (tmp_path / "here").mkdir()
    lay_out(tmp_path / "here", {"library.toml": b"x"})
    for _ in range(2):
        assert write_folder(tmp_path / "pages", {"index.html": "x"}, True) == []
    for _ in range(2):
        assert append_lines(tmp_path / "club" / "evidence" / "a.jsonl", b"{}\n", write_whole) == []
    assert (tmp_path / "club" / "evidence" / "a.jsonl").read_bytes() == b"{}\n{}\n"
    assert names(tmp_path) == ["club", "here", "pages"]


def test_paths_with_drives(monkeypatch: pytest.MonkeyPatch) -> None:
    def other_drive(path: object, start: object) -> str:
        raise ValueError("path is on mount 'D:', start on mount 'C:'")

    assert [is_on_a_drive(text) for text in ("D:x", "D:\\x", "/x", "x", "x/D:y")] == [True, False, False, False, False]
    assert [names_a_file(text) for text in ("a/b", "a.toml", "a")] == [True, True, False]
    monkeypatch.setattr(os.path, "relpath", other_drive)
    assert seen_from("map.toml", "/elsewhere") == os.path.abspath("map.toml")
