"""Kill -9 while files are written: whole or absent, and a pair that does not belong together is named."""

from __future__ import annotations

import os
import signal
from pathlib import Path

import pytest

import profilesmith.write_files as module
from profilesmith import left_over
from profilesmith.left_over import PART, unfinished
from profilesmith.review.reading_notes import broken_off
from profilesmith.workflows.review import review_again
from profilesmith.write_files import write_whole
from tests.faults.kills import LEDGER, OUT, derivations, kill_many, lay_out, look, prepare, write_both

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="there is no fork on this system")


def test_thirty_kills_lose_nothing(tmp_path: Path) -> None:
    found = kill_many(tmp_path, 30, seed=3)
    assert sum(found.values()) == 30
    assert set(found) <= {"clean", "left a part", "between two files"}


def killed_at(folder: Path, name: str, call: int, overwrite: bool) -> None:
    """A child that kills itself right after the nth call of a function of ``os``."""
    made = derivations(folder)
    child = os.fork()
    if child == 0:
        real, calls = getattr(os, name), [0]

        def counted(*given: object, **named: object) -> object:
            result = real(*given, **named)
            calls[0] += 1
            if calls[0] == call:
                os.kill(os.getpid(), signal.SIGKILL)
            return result

        setattr(os, name, counted)
        try:
            if overwrite:
                write_both(made, folder, 0)
            else:
                module.write_whole({folder / "one": b"1", folder / "two": b"2"}, overwrite=False)
        finally:
            os._exit(1)
    _, status = os.waitpid(child, 0)
    assert os.WIFSIGNALED(status)


def test_between_two_files_the_review_says_so(tmp_path: Path) -> None:
    kept = prepare(tmp_path)
    killed_at(tmp_path, "replace", 1, overwrite=True)
    assert look(tmp_path, kept) == "between two files"
    told = review_again(str(tmp_path / OUT))
    (left,) = unfinished(tmp_path / LEDGER)
    assert told.edited == (broken_off(left.name),)
    assert any("derive again" in note for note in told.review.notes)
    write_both(derivations(tmp_path), tmp_path, 0)
    assert review_again(str(tmp_path / OUT)).edited == ()


def test_right_before_the_second_file_moves_the_review_says_so_too(tmp_path: Path) -> None:
    kept = prepare(tmp_path)
    killed_at(tmp_path, "link", 2, overwrite=True)
    assert len(unfinished(tmp_path / LEDGER)) == 2
    assert look(tmp_path, kept) == "between two files"


@pytest.mark.parametrize("call", [1, 2, 3])
def test_what_is_not_yet_in_place_is_old(call: int, tmp_path: Path) -> None:
    kept = prepare(tmp_path)
    killed_at(tmp_path, "fsync", call, overwrite=True)
    assert look(tmp_path, kept) == "left a part"


def test_leftovers_are_swept_and_those_in_use_are_not(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    killed_at_place = tmp_path
    lay_out(killed_at_place)
    killed_at(tmp_path, "fsync", 2, overwrite=False)
    assert len(unfinished(tmp_path / "one")) == 1
    assert not (tmp_path / "one").exists()
    monkeypatch.setattr(left_over, "MOMENT", -1)
    waiting = module.stage(tmp_path / "one", b"of a run that lives")
    foreign = tmp_path / f".one.more.words.of.another{PART}"
    foreign.write_bytes(b"not ours")
    assert write_whole({tmp_path / "one": b"1"}, overwrite=False) == []
    assert unfinished(tmp_path / "one") == []
    assert os.path.exists(waiting.temporary)
    assert foreign.exists()
    assert not (tmp_path / LEDGER).exists()
    module.clear([waiting])
