"""Ctrl-C while processes are started: it is heard, and by the one that was called alone."""

from __future__ import annotations

import concurrent.futures
import os
import signal
import subprocess
import sys
import threading

import pytest

from profilesmith.workflows.parallel import _may_be_copied, in_order

pytestmark = pytest.mark.skipif(not hasattr(signal, "pthread_sigmask"), reason="the system cannot hold a signal back")


class Interrupted(concurrent.futures.Executor):
    """Hands out work as a pool does, and is interrupted just then."""

    def __init__(self, *_: object) -> None:
        self.given = 0

    def submit(self, work, /, *words):  # type: ignore[no-untyped-def]
        self.given += 1
        os.kill(os.getpid(), signal.SIGINT)
        done: concurrent.futures.Future[object] = concurrent.futures.Future()
        done.set_result(work(*words))
        return done


def deaf(_: int) -> bool:
    return signal.SIGINT in signal.pthread_sigmask(signal.SIG_BLOCK, ())


def test_ctrl_c_at_the_start_of_a_process_is_heard(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(concurrent.futures, "ProcessPoolExecutor", Interrupted)
    before = signal.pthread_sigmask(signal.SIG_BLOCK, ())
    handler = signal.signal(signal.SIGINT, signal.default_int_handler)
    try:
        with pytest.raises(KeyboardInterrupt):
            list(in_order(deaf, (1, 2, 3), id, 0, processes=2))
    finally:
        signal.signal(signal.SIGINT, handler)
    assert signal.pthread_sigmask(signal.SIG_BLOCK, ()) == before


def test_processes_that_were_started_do_not_hear_it() -> None:
    assert list(in_order(deaf, (1,), id, 0, processes=2)) == [True]
    assert not deaf(0)


def test_a_process_with_threads_is_not_copied() -> None:
    held = threading.Event()
    thread = threading.Thread(target=held.wait)
    thread.start()
    try:
        assert not _may_be_copied()
    finally:
        held.set()
        thread.join()


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere a copy is not safe")
def test_a_process_without_threads_is_copied() -> None:
    """And its copies do the work, deaf to Ctrl-C."""
    code = (
        "import profilesmith.workflows.parallel as parallel\n"
        "from tests.workflows.test_parallel import deaf\n"
        "assert parallel._may_be_copied()\n"
        "assert list(parallel.in_order(deaf, (1, 2, 3), id, 0, processes=2)) == [True, True, True]\n"
        "assert not deaf(0)\n"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
