"""Runs of a target side by side. A module of its own: a fresh process cannot import what stands in ``__main__``."""

from __future__ import annotations

import multiprocessing

from tests.fuzz.engine import Run, fuzz, shrunk
from tests.fuzz.targets.all_targets import TARGETS


def job(name: str, seed: int, executions: int | None, seconds: float | None) -> Run:
    """One run of one target, its findings made small. In a process of its own where there are several."""
    target = TARGETS[name]
    run = fuzz(target, seed, executions, seconds)
    return run._replace(findings=tuple(shrunk(target, found) for found in run.findings))


def runs(name: str, seed: int, jobs: int, executions: int | None, seconds: float | None) -> list[Run]:
    """One run for each job, each with a seed of its own; ``executions`` are shared among them."""
    each = None if executions is None else -(-executions // jobs)
    calls = [(name, seed + number, each, seconds) for number in range(jobs)]
    if jobs == 1:
        return [job(*calls[0])]
    with multiprocessing.get_context("spawn").Pool(jobs) as pool:
        return pool.starmap(job, calls)
