"""Work over processes: results in the order of the items, each process started once, and word of how far it is.

Ctrl-C waits for the chunks that are being worked on, so ``chunk`` is to be a second of work at most.
"""

from __future__ import annotations

import os
import signal
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


def cores() -> int:
    """The cores that this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def in_order(
    work: Callable[[Item], Result], items: Sequence[Item], begin: Callable[[Told], object], told: Told, processes: int, tell: Tell, chunk: int = 1,
) -> Iterator[Result]:  # fmt: skip
    """``work`` on every item. begin: called with ``told`` once in every process. tell: how many of how many are done."""
    if processes <= 1:
        begin(told)
        results: Iterator[Result] = map(work, items)
        yield from _counted(results, len(items), tell)
        return
    yield from _side_by_side(work, items, begin, told, processes, tell, chunk)


def _side_by_side(
    work: Callable[[Item], Result], items: Sequence[Item], begin: Callable[[Told], object], told: Told, processes: int, tell: Tell, chunk: int = 1,
) -> Iterator[Result]:  # fmt: skip
    from concurrent.futures import ProcessPoolExecutor
    from concurrent.futures.process import BrokenProcessPool
    from multiprocessing import get_context

    # Fresh processes on every system: a copy of one that has threads, such as the one that shows progress, may hang.
    pool = ProcessPoolExecutor(processes, get_context("spawn"), begin, (told,))
    try:
        with _no_interrupts():
            results = pool.map(work, items, chunksize=chunk)  # starts the processes
        yield from _counted(results, len(items), tell)
    except BrokenProcessPool:
        hint = "Is there memory enough? --jobs 1 works in one process."
        raise Refused([Problem("process-died", "One of the processes that worked side by side died.", Place("--jobs"), hint)]) from None
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


def _counted(results: Iterator[Result], total: int, tell: Tell) -> Iterator[Result]:
    for number, result in enumerate(results, 1):
        tell(number, total)
        yield result


@contextmanager
def _no_interrupts() -> Iterator[None]:
    """Processes that are started meanwhile never hear Ctrl-C, for they inherit that: the one that was called stops them."""
    if current_thread() is not main_thread():
        yield
        return
    before = signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
