"""Ctrl-C is heard, also where Python loses what is raised."""

import errno
import io
import os
import signal
import sys
import threading
from collections.abc import Callable, Iterator

import pytest

from profilesmith.cli import app, terminal
from profilesmith.cli.terminal import counted
from profilesmith.foundation.new_files import PLACED


class LosesIt:
    """What is raised while this is taken away is told to ``sys.unraisablehook`` and goes on to nobody."""

    def __del__(self) -> None:
        os.kill(os.getpid(), signal.SIGINT)


@pytest.fixture
def hears_interrupts() -> Iterator[None]:
    """As a program that was started on a terminal does; the tests may run in the background."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


def test_an_interrupt_that_a_destructor_lost_stops_at_the_next_piece(
    monkeypatch: pytest.MonkeyPatch, hears_interrupts: None
) -> None:
    lost = []
    monkeypatch.setattr(sys, "unraisablehook", lambda told: lost.append(told.exc_type))
    with terminal.new_run(), counted("working", quiet=True) as tell:
        tell(1, 3)
        LosesIt()
        assert lost == [terminal.Stopped]
        with pytest.raises(terminal.Stopped):
            tell(2, 3)


def test_a_host_may_call_the_program_again_after_an_interrupt(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], hears_interrupts: None
) -> None:
    """Ctrl-C ends the call that it was for; the next one works, counted pieces and all."""

    def interrupted(*_: object) -> None:
        signal.raise_signal(signal.SIGINT)

    def in_pieces(*_: object) -> None:
        with counted("working", quiet=True) as tell:
            tell(1, 1)
        terminal.say("done")

    assert called(monkeypatch, interrupted) == 130
    assert signal.getsignal(signal.SIGINT) is signal.default_int_handler
    assert called(monkeypatch, in_pieces) == 0
    assert capsys.readouterr() == ("done\n", "Stopped; nothing was left half written.\n")


def test_a_host_may_call_the_program_again_when_nobody_could_hear_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """What could not be said, and what was written meanwhile, is of one call."""

    class Full(io.StringIO):
        def write(self, text: str) -> int:
            raise OSError(errno.ENOSPC, "No space left on device")

    def writes(*_: object) -> None:
        PLACED.append("out.cfg")
        terminal.say("out.cfg")

    errors = io.StringIO()
    monkeypatch.setattr(sys, "stderr", errors)
    monkeypatch.setattr(sys, "stdout", Full())
    assert called(monkeypatch, writes) == 0
    assert "Written all the same: out.cfg." in errors.getvalue()
    assert called(monkeypatch, lambda *_: terminal.say("nothing")) == 2
    assert errors.getvalue().endswith("Nothing was written.\n")
    monkeypatch.setattr(sys, "stdout", io.StringIO())
    assert called(monkeypatch, lambda *_: terminal.say("heard")) == 0


def test_another_thread_may_call_the_program(monkeypatch: pytest.MonkeyPatch, hears_interrupts: None) -> None:
    codes: list[object] = []
    worker = threading.Thread(target=lambda: codes.append(called(monkeypatch, lambda *_: None)))
    worker.start()
    worker.join()
    assert codes == [0]


def called(monkeypatch: pytest.MonkeyPatch, work: Callable[..., None]) -> object:
    """The exit code of one call of the program, whose command does this work."""
    monkeypatch.setattr(app, "program", lambda first: work)
    with pytest.raises(SystemExit) as ended:
        app.main()
    return ended.value.code
