"""Ctrl-C is heard, also where Python loses what is raised."""

import os
import signal
import sys

import pytest

from profilesmith.cli import terminal
from profilesmith.cli.progress import counted


class LosesIt:
    """What is raised while this is taken away is told to ``sys.unraisablehook`` and goes on to nobody."""

    def __del__(self) -> None:
        os.kill(os.getpid(), signal.SIGINT)


def test_an_interrupt_that_a_destructor_lost_stops_at_the_next_piece(monkeypatch: pytest.MonkeyPatch) -> None:
    lost = []
    monkeypatch.setattr(sys, "unraisablehook", lambda told: lost.append(told.exc_type))
    monkeypatch.setattr(terminal, "_asked_to_stop", [])
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    try:
        terminal.stop_at_ctrl_c()
        with counted("working", quiet=True) as tell:
            tell(1, 3)
            LosesIt()
            assert lost == [terminal.Stopped]
            with pytest.raises(terminal.Stopped):
                tell(2, 3)
    finally:
        signal.signal(signal.SIGINT, before)
