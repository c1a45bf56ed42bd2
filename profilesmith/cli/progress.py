"""Signs of life for work that takes more than a second: one line on a terminal's standard error, wiped when done."""

from __future__ import annotations

import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from threading import Event, Thread

PATIENCE = 1.0  # seconds before anything is shown
BEAT = 0.5


@contextmanager
def busy(what: str, quiet: bool = False) -> Iterator[None]:
    """Show what is going on, and for how long, while the block runs. Nothing is shown to a pipe, or when quiet."""
    if quiet or not sys.stderr.isatty():
        yield
        return
    done = Event()
    thread = Thread(target=_beat, args=(what, done), daemon=True)
    thread.start()
    try:
        yield
    finally:
        done.set()
        thread.join()


def _beat(what: str, done: Event) -> None:
    start = time.monotonic()
    if done.wait(PATIENCE):
        return
    width = 0
    while not done.wait(BEAT):
        line = f"{what}, {time.monotonic() - start:.0f} s"
        width = max(width, len(line))
        sys.stderr.write(f"\r{line:<{width}}")
        sys.stderr.flush()
    sys.stderr.write(f"\r{'':<{width}}\r")
    sys.stderr.flush()
