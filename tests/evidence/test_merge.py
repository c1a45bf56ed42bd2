"""Two members add evidence on two branches: git's own union merge keeps both, and a doubled line counts once.

Outside check: git itself.
"""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest

from profilesmith.evidence.append_record import append_record
from profilesmith.evidence.load_evidence import load_evidence
from profilesmith.evidence.record import Record, record_line
from profilesmith.evidence.tally import tally
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.write_files import write_whole

pytestmark = pytest.mark.skipif(shutil.which("git") is None, reason="needs git")
FILE = "evidence/slow.jsonl"


def git(folder: Path, *words: str) -> str:
    who = {f"GIT_{role}_{item}": "club@example.org" for role in ("AUTHOR", "COMMITTER") for item in ("NAME", "EMAIL")}
    alone = {"GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_SYSTEM": os.devnull, "HOME": str(folder)}
    run = subprocess.run(
        ["git", "-C", str(folder), *words],
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, **who, **alone},
    )
    assert run.returncode == 0, run.stdout + run.stderr
    return run.stdout


@pytest.fixture
def club(tmp_path: Path, record: Record) -> Path:
    git(tmp_path, "init", "-q", "-b", "main")
    (tmp_path / ".gitattributes").write_text("evidence/*.jsonl merge=union\n")
    add(tmp_path, record)
    commit(tmp_path)
    return tmp_path


def add(club: Path, record: Record) -> None:
    assert append_record(club / FILE, record, write_whole) == []


def commit(club: Path) -> None:
    git(club, "add", "-A")
    git(club, "commit", "-q", "-m", "evidence")


def branch(club: Path, name: str, records: list[Record]) -> None:
    git(club, "switch", "-q", "-c", name, "main")
    for record in records:
        add(club, record)
    commit(club)


def merged(club: Path) -> Any:
    git(club, "switch", "-q", "one")
    git(club, "merge", "-q", "-m", "both", "other")
    return load_evidence(club / FILE, FILE, load_vocabulary())


def test_both_branches_records_are_there(club: Path, record: Record, others: Any) -> None:
    mine, theirs = others(5)[:2], others(5)[2:]
    branch(club, "one", mine)
    branch(club, "other", theirs)
    loaded = merged(club)
    assert loaded.problems == ()
    assert {item.id for item in loaded.records} == {item.id for item in (record, *mine, *theirs)}
    assert tally("slow", "1.0.0", loaded.records).tried == 6


def test_the_same_record_on_both_branches_counts_once(club: Path, record: Record, others: Any) -> None:
    shared, mine, theirs = others(3)
    branch(club, "one", [shared, mine])
    branch(club, "other", [theirs, shared])
    loaded = merged(club)
    assert loaded.problems == ()
    assert sorted(item.id for item in loaded.records) == sorted(item.id for item in (record, shared, mine, theirs))
    assert (club / FILE).read_text(encoding="utf-8").count(shared.id) == 2, (
        "the merge doubled the line; the loader counts it once"
    )
    assert loaded.repeated == 1


def test_a_missing_last_line_end_on_one_side(club: Path, record: Record, others: Any) -> None:
    mine, theirs = others(2)
    branch(club, "one", [mine])
    path = club / FILE
    path.write_text(path.read_text(encoding="utf-8").rstrip("\n"), encoding="utf-8")
    commit(club)
    branch(club, "other", [theirs])
    assert {item.id for item in merged(club).records} == {item.id for item in (record, mine, theirs)}


def test_without_the_attribute_the_mark_of_the_merge_is_named(club: Path, others: Any) -> None:
    """What a club sees that has not the line in .gitattributes."""
    mine, theirs = others(2)
    path = club / FILE
    path.write_text(
        f"<<<<<<< ours\n{record_line(mine)}=======\n{record_line(theirs)}>>>>>>> theirs\n", encoding="utf-8"
    )
    loaded = load_evidence(path, FILE, load_vocabulary())
    assert [problem.code for problem in loaded.problems] == ["merge-mark"] * 3
    assert "merge=union" in loaded.problems[0].hint
    assert len(loaded.records) == 2
