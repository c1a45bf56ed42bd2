"""Work over processes: results in the order of the items, each process started once, and word of how far it is.

Ctrl-C waits for the chunks that are being worked on, so ``chunk`` is to be a second of work at most.
"""

from __future__ import annotations

import os
import signal
import sys
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from threading import current_thread, main_thread
from typing import TypeVar

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused

Item = TypeVar("Item")
Result = TypeVar("Result")
Told = TypeVar("Told")
Tell = Callable[[int, int], None]
AHEAD = 2  # chunks under way for each process
HINT = "Is there memory enough? --jobs 1 works in one process."


def _nobody(done: int, total: int) -> None:
    """For work whose results tell how far it is."""


def cores() -> int:
    """The cores that this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def in_order(
    work: Callable[[Item], Result],
    items: Sequence[Item],
    begin: Callable[[Told], object],
    setup: Told,
    processes: int,
    tell: Tell = _nobody,
    chunk: int = 1,
    hint: str = HINT,
) -> Iterator[Result]:
    """``work`` on every item. begin: called with ``told`` once in every process. tell: how many of how many are done.

    chunk: items that travel to a process together; only a few chunks are under way, so that memory stays flat.
    hint: what to do when a process dies.
    """
    if processes <= 1:
        begin(setup)
        results: Iterator[Result] = map(work, items)
    else:
        results = _side_by_side(work, items, begin, setup, processes, chunk, hint)
    yield from _counted(results, len(items), tell)


def _side_by_side(
    work: Callable[[Item], Result],
    items: Sequence[Item],
    begin: Callable[[Told], object],
    setup: Told,
    processes: int,
    chunk: int,
    hint: str,
) -> Iterator[Result]:
    from concurrent.futures import Future, ProcessPoolExecutor
    from concurrent.futures.process import BrokenProcessPool
    from multiprocessing import get_context

    copied = _may_be_copied()
    pool = ProcessPoolExecutor(processes, get_context("fork" if copied else "spawn"), begin, (setup,))
    waiting: deque[Future[list[Result]]] = deque()
    try:
        for part in (items[at : at + chunk] for at in range(0, len(items), chunk)):
            with _no_interrupts(copied):  # what is handed out may start a process
                waiting.append(pool.submit(_all, work, part))
            if len(waiting) >= processes * AHEAD:
                yield from waiting.popleft().result()
        while waiting:
            yield from waiting.popleft().result()
    except BrokenProcessPool:
        raise Refused(
            [Problem("process-died", "One of the processes that worked side by side died.", Place("--jobs"), hint)]
        ) from None
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


def _may_be_copied() -> bool:
    """Whether this process may be copied, which takes a tenth of starting a fresh one: on Linux, while it has no thread
    beside this one. A copy of one that has, such as the one that shows progress, may wait for it for ever.
    """
    try:
        return sys.platform == "linux" and len(os.listdir("/proc/self/task")) == 1
    except OSError:
        return False


def _all(work: Callable[[Item], Result], items: Sequence[Item]) -> list[Result]:
    return [work(item) for item in items]


def _counted(results: Iterator[Result], total: int, tell: Tell) -> Iterator[Result]:
    for number, result in enumerate(results, 1):
        tell(number, total)
        yield result


@contextmanager
def _no_interrupts(copied: bool) -> Iterator[None]:
    """Processes that are started meanwhile never hear Ctrl-C, for they inherit that: the one that was called stops
    them. Where the system can hold a signal back, it is heard afterwards. copied: as ``_may_be_copied`` says.
    """
    if current_thread() is not main_thread():
        yield
    elif hasattr(signal, "pthread_sigmask"):
        if not copied:
            from multiprocessing import resource_tracker

            resource_tracker.ensure_running()  # to start it later would let the signal through again
        before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
        try:
            yield
        finally:
            signal.pthread_sigmask(signal.SIG_SETMASK, before)
    else:
        handler = signal.signal(signal.SIGINT, signal.SIG_IGN)
        try:
            yield
        finally:
            signal.signal(signal.SIGINT, handler)
