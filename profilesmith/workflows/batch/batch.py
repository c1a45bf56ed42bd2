"""Batch: all derivations of an order, over several processes, one result after the other in the order's order.

Nothing is collected: a few derivations are under way, a result is handed on when its turn comes.
"""

from __future__ import annotations

import gc
import os
from collections import deque
from collections.abc import Iterator
from pathlib import Path

from profilesmith.foundation.problem import Problem, Refused
from profilesmith.workflows.batch.plan import Plan, Task, plan
from profilesmith.workflows.batch.work import Result, work
from profilesmith.workflows.shelf import Shelf

CHUNK = 32  # derivations that travel to a process together and are written together
AHEAD = 2  # chunks under way for each process


def make_plan(order: str, library: Path | None, overwrite: bool) -> Plan:
    """What is to be done. Raises Refused with every mistake of the order; nothing was written then."""
    return plan(order, library, overwrite)


def run(planned: Plan, jobs: int, overwrite: bool) -> Iterator[Result]:
    """The results in the order's order. jobs: processes; 0 for as many as there are cores. Raises Refused."""
    jobs = min(jobs or os.cpu_count() or 1, len(planned.tasks))
    if jobs <= 1:
        _SHELVES[:] = [Shelf()]
        try:
            for chunk in _chunks(planned.tasks, CHUNK):
                yield from _several(chunk, overwrite)
        finally:
            _SHELVES.clear()
            gc.unfreeze()
        return
    yield from _spread(planned.tasks, jobs, overwrite)


def _spread(tasks: tuple[Task, ...], jobs: int, overwrite: bool) -> Iterator[Result]:
    from concurrent.futures import Future, ProcessPoolExecutor
    from concurrent.futures.process import BrokenProcessPool

    waiting: deque[Future[list[Result]]] = deque()
    with ProcessPoolExecutor(jobs, initializer=_begin) as pool:
        try:
            for chunk in _chunks(tasks, min(CHUNK, -(-len(tasks) // jobs))):
                waiting.append(pool.submit(_several, chunk, overwrite))
                if len(waiting) >= jobs * AHEAD:
                    yield from waiting.popleft().result()
            while waiting:
                yield from waiting.popleft().result()
        except BrokenProcessPool as error:
            message = "A process of the batch ended before its time (was it stopped, or memory short?)."
            raise Refused([Problem("process", message, hint="What was written is whole. Run it again with --overwrite and fewer --jobs.")]) from error
        finally:
            for future in waiting:
                future.cancel()


_SHELVES: list[Shelf] = []  # one, in each process


def _begin() -> None:
    """A process of the pool begins. Ctrl-C is for the one that hands out the work; what is under way is finished."""
    import signal

    signal.signal(signal.SIGINT, signal.SIG_IGN)
    _SHELVES[:] = [Shelf()]


def _several(chunk: tuple[Task, ...], overwrite: bool) -> list[Result]:
    """A chunk, and then its waste taken out: what lives on is frozen, so that looking at the rest is quick
    and memory stays flat however long the order is."""
    gc.disable()
    try:
        done = work(chunk, overwrite, _SHELVES[0])
    finally:
        gc.enable()
    gc.collect()
    gc.freeze()
    return done


def _chunks(tasks: tuple[Task, ...], size: int) -> Iterator[tuple[Task, ...]]:
    return (tasks[at : at + size] for at in range(0, len(tasks), size))
