"""Files that wait beside their place while they are written, and those that a run left there when it was broken off."""

import os
import time
from contextlib import suppress
from pathlib import Path

PART = ".part"  # the ending of files that wait beside their place
MOMENT = 10  # seconds


def waiting_prefix(path: Path) -> str:
    """How the names of files that wait beside a place begin."""
    return f".{path.name[:50]}."


def unfinished(path: Path) -> list[Path]:
    """Files that a run left beside a place when it was broken off while writing."""
    prefix, parts = waiting_prefix(path), []
    with suppress(OSError), os.scandir(path.parent) as entries:
        names = [entry.name for entry in entries if entry.name.startswith(prefix) and entry.name.endswith(PART)]
        parts = [path.parent / name for name in sorted(names) if name.removeprefix(prefix).count(".") <= 2]
    return [part for part in parts if not _in_use(part)]


def sweep(path: Path) -> None:
    """Remove what broken off runs left for this place. What is a moment old may not be locked yet."""
    for part in unfinished(path):
        with suppress(OSError):
            if time.time() - part.stat().st_mtime > MOMENT:
                part.unlink()


def _in_use(part: Path) -> bool:
    """Whether the run that writes a file still lives: its lock goes with it."""
    try:
        handle = os.open(part, os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0))
    except OSError:
        return True
    free = lock(handle)
    os.close(handle)
    return not free


def lock(handle: int) -> bool:
    """Lock an open file. False: somebody else has. Where there are no locks, every file may be in use."""
    try:
        import fcntl

        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except (ImportError, OSError):
        return False
    return True
