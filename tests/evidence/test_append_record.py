"""Adding a record: whole or not at all, beside other writers, on a full disk, when killed, in a folder that is
read-only.
"""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pytest

from profilesmith.evidence import append_record as module
from profilesmith.evidence.append_record import append_record
from profilesmith.evidence.load_evidence import load_evidence
from profilesmith.evidence.record import Record, record_line
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.write_files import write_whole

# A process that adds records one after the other: FILE, FIRST MARK, COUNT, ENDLESS.
WRITER = """
import sys
from pathlib import Path
from profilesmith.evidence.append_record import append_record
from profilesmith.evidence.record import Record
from profilesmith.write_files import write_whole
path, first, count = Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3])
record = Record("2030-01-31", "slow", "1.0.0", "worked", {}, {}, {}, "", note="x" * 300)
print("ready", flush=True)
for number in range(first, first + count):
    problems = append_record(path, record._replace(mark=f"{number:08x}"), write_whole)
    assert problems == [], problems
"""


def marks(path: Path) -> list[str]:
    loaded = load_evidence(path, str(path), load_vocabulary())
    assert loaded.problems == ()
    return [item.mark for item in loaded.records]


def add(path: Path, record: Record) -> list[Any]:
    return append_record(path, record, write_whole)


def test_records_follow_one_another(tmp_path: Path, others: Any) -> None:
    path = tmp_path / "evidence" / "slow.jsonl"
    for record in others(3):
        assert add(path, record) == []
    assert path.read_text(encoding="utf-8") == "".join(record_line(record) for record in others(3))
    assert [item.name for item in path.parent.iterdir()] == ["slow.jsonl"], "nothing is left beside it"


@pytest.mark.parametrize("end", ["", "\n", "\r\n"])
def test_a_missing_last_line_end_is_set_first(tmp_path: Path, others: Any, end: str) -> None:
    path = tmp_path / "slow.jsonl"
    one, other = others(2)
    path.write_bytes(record_line(one).rstrip("\n").encode() + end.encode())
    assert add(path, other) == []
    assert len(marks(path)) == 2


def test_four_processes_at_once_lose_nothing(tmp_path: Path) -> None:
    path = tmp_path / "slow.jsonl"
    writers = [
        subprocess.Popen([sys.executable, "-c", WRITER, str(path), str(first), "15"], stdout=subprocess.PIPE)
        for first in (0, 100, 200, 300)
    ]
    for writer in writers:
        writer.communicate(timeout=60)
    assert [writer.returncode for writer in writers] == [0, 0, 0, 0]
    assert sorted(marks(path)) == sorted(
        f"{first + number:08x}" for first in (0, 100, 200, 300) for number in range(15)
    )


def test_without_a_lock_a_change_beside_is_seen(tmp_path: Path, others: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    """An editor that knows of no lock saves between the two looks: its line stays."""
    path = tmp_path / "slow.jsonl"
    first, second, third = others(3)
    add(path, first)
    read, looks = module._read, []

    def late(found: Path) -> bytes | None:
        looks.append(found)
        if len(looks) == 2:
            path.write_text(record_line(first) + record_line(second), encoding="utf-8")
        return read(found)

    monkeypatch.setattr(module, "_read", late)
    assert add(path, third) == []
    assert marks(path) == [first.mark, second.mark, third.mark]


def test_a_full_disk_leaves_the_file_as_it_was(tmp_path: Path, others: Any) -> None:
    """A limit on the size of files stands for the full disk: the write fails in its middle."""
    path = tmp_path / "slow.jsonl"
    for record in others(3):
        add(path, record)
    before = path.read_bytes()
    limit = (
        "import resource, signal; signal.signal(signal.SIGXFSZ, signal.SIG_IGN); "
        f"resource.setrlimit(resource.RLIMIT_FSIZE, ({len(before) + 100}, {len(before) + 100}))\n"
    )
    run = subprocess.run(
        [sys.executable, "-B", "-c", limit + WRITER, str(path), "50", "1"], capture_output=True, text=True, check=False
    )
    assert run.returncode == 1
    assert "cannot-write" in run.stderr
    assert "the file is as it was" in run.stderr
    assert path.read_bytes() == before
    assert [item.name for item in tmp_path.iterdir()] == ["slow.jsonl"]


def test_killed_at_any_moment_the_file_is_whole(tmp_path: Path) -> None:
    path = tmp_path / "slow.jsonl"
    chance = random.Random(7)
    count = 0
    for round_ in range(12):
        writer = subprocess.Popen(
            [sys.executable, "-c", WRITER, str(path), str(1000 * round_), "900"],
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
        )
        assert writer.stdout is not None
        writer.stdout.readline()
        while not path.exists() and writer.poll() is None:  # the first, however slow the disk is
            time.sleep(0.001)
        time.sleep(chance.uniform(0, 0.05))
        writer.send_signal(signal.SIGKILL)
        writer.communicate(timeout=300)
        now = len(marks(path)) if path.exists() else 0
        assert now >= count, "a killed writer took records of others away"
        count = now
    assert count > 0
    # A lock that a dead process held would stop this one.
    assert add(path, Record("2030-01-31", "slow", "1.0.0", "worked", {}, {}, {}, "ffffffff")) == []
    assert len(marks(path)) == count + 1


@pytest.mark.skipif(os.name == "nt", reason="needs a kind of folder that Windows has not")
def test_where_nothing_can_be_written_it_says_so(tmp_path: Path, record: Record) -> None:
    found = add(Path("/proc/evidence/slow.jsonl"), record)
    assert [problem.code for problem in found] == ["cannot-write"]
    folder = tmp_path / "slow.jsonl"
    folder.mkdir()
    assert [problem.code for problem in add(folder, record)] == ["cannot-write"]


def test_another_writer_that_does_not_end_is_told(
    tmp_path: Path, record: Record, monkeypatch: pytest.MonkeyPatch
) -> None:
    fcntl = pytest.importorskip("fcntl")
    monkeypatch.setattr(module, "PATIENCE", 0.05)
    handle = os.open(tmp_path, os.O_RDONLY)
    fcntl.flock(handle, fcntl.LOCK_EX)
    assert [problem.code for problem in add(tmp_path / "slow.jsonl", record)] == ["busy"]
    os.close(handle)
    assert add(tmp_path / "slow.jsonl", record) == []


def test_a_file_or_record_beyond_the_bounds_is_refused(
    tmp_path: Path, record: Record, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "slow.jsonl"
    assert [problem.code for problem in add(path, record._replace(note="x" * 40_000))] == ["too-long"]
    monkeypatch.setattr(module, "LARGEST_FILE", 100)
    path.write_text("\n" * 90)
    assert [problem.code for problem in add(path, record)] == ["too-large"]
    assert path.read_text() == "\n" * 90
