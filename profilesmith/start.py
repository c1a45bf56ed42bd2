"""Where a run begins. Next to nothing is imported before Ctrl-C can be answered in a sentence."""

import os
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
