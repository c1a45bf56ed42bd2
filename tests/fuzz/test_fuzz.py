"""A short run of every target with a fixed seed, and every input that once showed a fault."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from tests.fuzz.engine import Finding, Mutator, Target, attempt, fuzz, shrunk
from tests.fuzz.targets import ledger
from tests.fuzz.targets.all_targets import TARGETS

FOUND = sorted((Path(__file__).parents[1] / "cases" / "fuzz").glob("*/*"))
EXECUTIONS = {"document": 1500, "keymap": 500, "recipe": 700, "facts": 700, "ledger": 250, "pipeline": 150, "words": 80}


@pytest.mark.parametrize("name", list(TARGETS))
def test_a_short_run_finds_nothing(name: str) -> None:
    run = fuzz(TARGETS[name], seed=11, executions=EXECUTIONS[name])
    assert run.findings == ()
    assert run.executions == EXECUTIONS[name]
    assert run.kept > 3, "the inputs do different things"


@pytest.mark.parametrize("path", FOUND, ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_what_was_found_is_mended(path: Path) -> None:
    TARGETS[path.parent.name].one_input(path.read_bytes())


def test_the_engine_finds_a_fault_and_makes_it_small() -> None:
    def fails(data: bytes) -> str:
        assert b"setting" not in data or b"9" not in data
        return str(len(data) % 5)

    target = Target("sample", fails, lambda: [b"key = 1\nother = 2\n"], lambda: [b"setting"])
    run = fuzz(target, seed=1, executions=5000)
    assert [finding.mark.split()[0] for finding in run.findings] == ["AssertionError"]
    small = shrunk(target, run.findings[0])
    assert len(small.data) <= len(b"setting9") + 4


def test_ledgers_are_changed_in_their_nodes_and_not_cut_off() -> None:
    """Once all seeds were longer than an input might be: what was left was no JSON, and no ledger was ever read."""
    target = TARGETS["ledger"]
    mutator = Mutator(target.seeds(), target.tokens(), 3)
    assert all(target.behaviour(seed).split()[0] in ledger.FORMS for seed in target.seeds())
    shown = [target.behaviour(mutator.next()).split()[0] for _ in range(200)]
    assert sum(word in ledger.FORMS for word in shown) > 40
    assert shown.count("bad-ledger") > 20


def test_one_seed_makes_one_run() -> None:
    first, second = ([Mutator([b"a = 1\nb = 2"], [b"x"], 3).next() for _ in range(1)] for _ in range(2))
    assert first == second


def test_an_input_without_end_is_a_finding(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tests.fuzz.engine.PATIENCE", 0.05)

    def endless(data: bytes) -> str:
        while True:
            pass

    behaviour, finding = attempt(Target("sample", endless, lambda: [], lambda: []), b"x")
    assert behaviour == ""
    assert isinstance(finding, Finding)
    assert finding.mark.startswith("TooSlow")


def test_the_command_shares_the_work() -> None:
    """Two fresh processes: they can import what they are to run."""
    command = [sys.executable, "-m", "tests.fuzz", "--target", "facts", "--executions", "60", "--jobs", "2"]
    done = subprocess.run(
        command, cwd=Path(__file__).parents[2], capture_output=True, text=True, check=False, timeout=60
    )
    assert done.returncode == 0, done.stderr
    assert "60 executions" in done.stdout
    assert "0 findings" in done.stdout
