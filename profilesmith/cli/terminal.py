"""The only place that prints. Knows the terminal: its width, its colours, the characters it can show."""

from __future__ import annotations

import os
import shutil
import sys
from typing import TYPE_CHECKING, TextIO

if TYPE_CHECKING:
    from profilesmith.foundation.problem import Refused
    from profilesmith.review.render import Look

_PLAIN = {"→": "->", "…": "...", "²": "2", "³": "3", "°": " deg", "×": "x", "−": "-", "µ": "u", "·": "-"}


def say(text: str) -> None:
    """Print a text to standard output, without a second newline when it has one."""
    _write(sys.stdout, text)


def say_error(text: str) -> None:
    """Print a text to standard error."""
    _write(sys.stderr, text)


def _write(stream: TextIO, text: str) -> None:
    if not text.endswith("\n"):
        text += "\n"
    try:
        try:
            stream.write(text)
        except UnicodeEncodeError:
            encoding = stream.encoding or "ascii"
            plain = "".join(_PLAIN.get(char, char) for char in text)
            stream.write(plain.encode(encoding, "backslashreplace").decode(encoding))
        stream.flush()
    except BrokenPipeError:  # the reader has seen enough; typer would make a fault of it
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
        sys.exit(0)


class Stopped(BaseException):
    """Ctrl-C. Not KeyboardInterrupt, which typer takes for itself."""


def stop_at_ctrl_c() -> None:
    """Raise ``Stopped`` at Ctrl-C, unless whoever started the program made it deaf to that."""
    import signal

    def stop(*_: object) -> None:
        raise Stopped

    if signal.getsignal(signal.SIGINT) is signal.default_int_handler:
        signal.signal(signal.SIGINT, stop)


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

    tty = sys.stdout.isatty()
    colour = tty and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"
    width = shutil.get_terminal_size((100, 24)).columns
    return Look(width=min(max(width, 60), 120), colour=colour, full=full)
