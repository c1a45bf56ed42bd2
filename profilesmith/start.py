"""Where a run begins and ends. Next to nothing is imported before Ctrl-C can be answered in a sentence."""

import os
import sys
from contextlib import suppress


def main() -> None:
    """Run the program. Ctrl-C before it is there ends with exit code 130, as later on."""
    try:
        from profilesmith.cli.app import main as run

        run()
    except KeyboardInterrupt:
        with suppress(OSError):  # standard error may be closed
            os.write(2, b"Stopped; nothing was left half written.\n")
        os._exit(130)
    except SystemExit as ended:
        _leave(ended)


def _leave(ended: SystemExit) -> None:
    """End the process without taking it apart piece by piece, which is a twentieth of a short run.

    All files are closed by then, and all that was said was flushed. Other processes are ended with all due ceremony.
    """
    if not isinstance(ended.code, int) or "multiprocessing" in sys.modules:
        raise ended
    try:
        for stream in (sys.stdout, sys.stderr):
            if stream is not None:  # closed from the start
                stream.flush()
    except (OSError, ValueError):
        raise ended from None
    os._exit(ended.code)
