"""Runs of targets side by side. A module of its own: a fresh process cannot import what stands in ``__main__``."""

from __future__ import annotations

import hashlib
import multiprocessing
import time
from collections.abc import Sequence
from pathlib import Path

from tests.fuzz.engine import Finding, Run, Session, Target, shrunk
from tests.fuzz.targets.all_targets import TARGETS

SLICE = 2.0  # seconds of one target before the next has its turn


def job(names: Sequence[str], seed: int, executions: int | None, seconds: float | None, keep: Path) -> dict[str, Run]:
    """All targets in turn, each for the same time, until so many executions in all are done, or the seconds over.

    What is found is made small and written at once, so that a run that is broken off loses nothing.
    """
    sessions = [Session(TARGETS[name], seed) for name in names]
    begun, turn = time.monotonic(), SLICE if seconds is None else min(SLICE, seconds / (4 * len(names)))
    while True:
        for session in sessions:
            left = None if executions is None else executions - sum(one.count for one in sessions)
            rest = None if seconds is None else seconds - (time.monotonic() - begun)
            if (left is not None and left <= 0) or (rest is not None and rest <= 0):
                return {name: one.run() for name, one in zip(names, sessions, strict=True)}
            most = None if left is None else max(1, left // (4 * len(sessions)))
            for finding in session.go(most, turn if rest is None else min(turn, rest)):
                tell(session.target, shrunk(session.target, finding), keep)


def tell(target: Target, finding: Finding, folder: Path) -> None:
    """The input of a finding as a file that is named by what it holds, and the end of its traceback."""
    place = folder / target.name
    place.mkdir(parents=True, exist_ok=True)
    path = place / f"{hashlib.sha256(finding.data).hexdigest()[:12]}.input"
    path.write_bytes(finding.data)
    print(f"  {finding.mark}\n  {path}\n{finding.told}", flush=True)


def runs(
    names: Sequence[str], seed: int, jobs: int, executions: int | None, seconds: float | None, keep: Path
) -> list[dict[str, Run]]:
    """One run for each job, each with a seed of its own; ``executions`` are shared among them."""
    shares = [None if executions is None else (executions + number) // jobs for number in range(jobs)]
    calls = [(names, seed + number, share, seconds, keep) for number, share in enumerate(shares)]
    if jobs == 1:
        return [job(*calls[0])]
    with multiprocessing.get_context("spawn").Pool(jobs) as pool:
        return pool.starmap(job, calls)
