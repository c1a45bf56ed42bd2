"""The only place that prints. Knows the terminal: its width, its colours, the characters it can show.

Signs of life for work that takes more than a second: one line on standard error, wiped when done.
"""

from __future__ import annotations

import os
import shutil
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from contextvars import ContextVar
from threading import Event, Thread
from typing import TYPE_CHECKING, TextIO

from profilesmith.foundation.new_files import PLACED

if TYPE_CHECKING:
    from profilesmith.foundation.problem import Refused
    from profilesmith.review.render import Look

_PLAIN = {"→": "->", "…": "...", "²": "2", "³": "3", "°": " deg", "×": "x", "−": "-", "µ": "u", "·": "-"}


class Stopped(BaseException):
    """Ctrl-C. Not KeyboardInterrupt, which typer takes for itself."""


class Run:
    """One call of the program, as far as its terminal goes. ``main`` holds it, so that a host may call that again.

    unsaid: why standard output could not take what was said, once for each text. hushed: whether each command that is
    running may print nothing but errors. asked_to_stop: whether Ctrl-C was heard.
    """

    def __init__(self) -> None:
        self.unsaid: list[str] = []
        self.hushed: list[bool] = []
        self.asked_to_stop = False

    def stop(self, *_: object) -> None:
        """Ctrl-C. It is remembered, for what is raised within a destructor is lost."""
        self.asked_to_stop = True
        raise Stopped


_RUN: ContextVar[Run] = ContextVar("run")


def _this_run() -> Run:
    """The run that is going on; outside of any, one that nobody asks afterwards."""
    return _RUN.get(None) or Run()


@contextmanager
def new_run() -> Iterator[Run]:
    """Within the block Ctrl-C raises ``Stopped``, unless whoever started the program made it deaf to that, and what
    cannot be said is remembered. Afterwards all is as it was.
    """
    import signal

    run = Run()
    PLACED.clear()
    token = _RUN.set(run)
    before = signal.getsignal(signal.SIGINT)
    hears = before is signal.default_int_handler
    try:
        if hears:
            with suppress(ValueError):  # another thread than the main one hears no signals
                signal.signal(signal.SIGINT, run.stop)
        yield run
    finally:
        if hears:
            with suppress(ValueError):
                signal.signal(signal.SIGINT, before)
        _RUN.reset(token)


@contextmanager
def hushed(quiet: bool) -> Iterator[None]:
    """Print nothing to standard output meanwhile."""
    run = _this_run()
    run.hushed.append(quiet)
    try:
        yield
    finally:
        run.hushed.pop()


def say(text: str) -> None:
    """Print a text to standard output, without a second newline when it has one."""
    if any(_this_run().hushed):
        return
    _write(sys.stdout, text if text.endswith("\n") else f"{text}\n")


def say_piece(text: str) -> None:
    """Print a piece of a text to standard output, as it is."""
    _write(sys.stdout, text)


def say_error(text: str) -> None:
    """Print a text to standard error."""
    _write(sys.stderr, text if text.endswith("\n") else f"{text}\n")


def is_terminal(stream: TextIO | None) -> bool:
    """Whether a person sits at a stream. One that was closed from the start is None."""
    return stream is not None and stream.isatty()


def _write(stream: TextIO | None, text: str) -> None:
    """Write, and never fail: the work goes on, and the end of the run says what was not heard (``heard``)."""
    if stream is None:
        return
    try:
        try:
            stream.write(text)
        except UnicodeEncodeError:
            encoding = stream.encoding or "ascii"
            plain = "".join(_PLAIN.get(char, char) for char in text)
            stream.write(plain.encode(encoding, "backslashreplace").decode(encoding))
        stream.flush()
    except BrokenPipeError:  # the reader has seen enough
        to_nowhere(stream)
    except OSError as error:
        if stream is sys.stdout:
            _this_run().unsaid.append(error.strerror or str(error))
        to_nowhere(stream)


def to_nowhere(stream: TextIO) -> None:
    """What is still to be said on a stream, and what it holds back, goes to nobody."""
    with suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
        stream.flush()


def heard(code: int) -> int:
    """The exit code of a run whose work ended with ``code``; says on standard error what could not be said.

    What was written stands, so a run that only could not tell of it is done: to repeat it would do it twice.
    """
    unsaid = _this_run().unsaid
    if not unsaid:
        return code
    say_error(f"error: Standard output cannot be written: {unsaid[0]}.")
    say_written()
    return code or (0 if PLACED else 2)


def say_written() -> None:
    """What this run has put in place, on standard error."""
    say_error(
        f"Written all the same: {', '.join(_visible(name) for name in PLACED)}." if PLACED else "Nothing was written."
    )


def stop_if_asked() -> None:
    """Raise ``Stopped`` once more where a Ctrl-C was heard and lost: long work asks after each piece."""
    if _this_run().asked_to_stop:
        raise Stopped


def fail(refused: Refused) -> int:
    """Print every problem; returns the exit code."""
    for problem in refused.problems:
        say_error(f"error: {_visible(str(problem))}")
    return refused.exit_code


def _visible(text: str) -> str:
    """A message may quote a stranger's text: its control characters are shown, its own line break stays."""
    from profilesmith.review.wording import visible

    return "\n".join(visible(line) for line in text.split("\n"))


def look(full: bool = False) -> Look:
    """How a review is to come out on this terminal."""
    from profilesmith.review.render import Look

    tty = is_terminal(sys.stdout)
    colour = tty and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"
    width = shutil.get_terminal_size((100, 24)).columns
    return Look(width=min(max(width, 40), 120), colour=colour, full=full)


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
