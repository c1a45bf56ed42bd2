"""Signs of life for work that takes more than a second: one line on a terminal's standard error, wiped when done."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from threading import Event, Thread

from profilesmith.cli.terminal import is_terminal, stop_if_asked

PATIENCE = 1.0  # seconds before anything is shown
BEAT = 0.5


@contextmanager
def busy(what: str, quiet: bool = False) -> Iterator[None]:
    """Show what is going on, and for how long, while the block runs. Nothing is shown to a pipe, or when quiet."""
    with _shown(lambda: what, quiet):
        yield


@contextmanager
def counted(what: str, quiet: bool = False) -> Iterator[Callable[[int, int], None]]:
    """As ``busy``; the block gets a function to tell it how many of how many are done, which also stops it."""
    far = [0, 0]

    def tell(done: int, total: int) -> None:
        stop_if_asked()
        far[:] = done, total

    with _shown(lambda: f"{what}, {far[0]:,} of {far[1]:,}" if far[1] else what, quiet):
        yield tell


@contextmanager
def _shown(words: Callable[[], str], quiet: bool) -> Iterator[None]:
    if quiet or not is_terminal(sys.stderr):
        yield
        return
    done = Event()
    thread = Thread(target=_beat, args=(words, done), daemon=True)
    thread.start()
    try:
        yield
    finally:
        done.set()
        thread.join()


def _beat(words: Callable[[], str], done: Event) -> None:
    start = time.monotonic()
    if done.wait(PATIENCE):
        return
    width = 0
    while not done.wait(BEAT):
        line = f"{words()}, {time.monotonic() - start:.0f} s"
        width = max(width, len(line))
        sys.stderr.write(f"\r{line:<{width}}")
        sys.stderr.flush()
    sys.stderr.write(f"\r{'':<{width}}\r")
    sys.stderr.flush()
