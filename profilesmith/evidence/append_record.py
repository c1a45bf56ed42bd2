"""Adding one record to its file, whole or not at all, also beside a second writer.

The file is copied with the new line at its end, flushed, and moved over the old one. An appended line could be left
half by a full disk or a killed process, and cutting it off again could cut off another writer's; after the move there
is the old file or the new one, never a third. Writers wait for one another at a lock on the folder, which the system
gives back when a process ends, so none stays behind. Where there is no such lock, and for editors that know of none,
the file is looked at once more right before the move, and read anew when it changed.
"""

from __future__ import annotations

import os
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path

from profilesmith.evidence.load_evidence import LARGEST_FILE, LONGEST_LINE
from profilesmith.evidence.record import Record, record_line
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem
from profilesmith.foundation.read_file import must_be_plain

Write = Callable[[Mapping[Path, bytes], bool], list[Problem]]
TRIES = 20
PATIENCE = 20.0  # seconds to wait for other writers


def append_record(path: Path, record: Record, write: Write) -> list[Problem]:
    """Add a record. The folder is made when it lacks. Returns what went wrong; then the file is as it was.

    write: writes whole files or none (``write_files.write_whole``).
    """
    line = record_line(record).encode()
    if len(line) > LONGEST_LINE:
        return [Problem("too-long", "The record is too long.", Place(str(path)), "Shorten the note.")]
    return append_lines(path, line, write)


def append_lines(path: Path, line: bytes, write: Write) -> list[Problem]:
    """Add whole lines to a file of lines, as ``append_record`` does."""
    try:
        path.parent.mkdir(exist_ok=True)
        with _alone(path.parent):
            return _append(path, line, write)
    except TimeoutError:
        hint = "Try again when the other is done; nothing was written."
        return [Problem("busy", "Another process is writing evidence here.", Place(str(path)), hint)]
    except OSError as error:
        return [_cannot(path, error)]


def _append(path: Path, line: bytes, write: Write) -> list[Problem]:
    for _ in range(TRIES):
        before = _read(path)
        if before is not None and len(before) + len(line) > LARGEST_FILE:
            hint = "Move the records of old versions to another folder."
            return [
                Problem("too-large", f"The file would be larger than {LARGEST_FILE:,} bytes.", Place(str(path)), hint)
            ]
        if _read(path) != before:
            continue
        # Without a file before, one that appears meanwhile is not replaced: the next round reads it.
        problems = write({path: _whole(before or b"") + line}, before is not None)
        if [problem.code for problem in problems] != ["exists"]:
            return [problem._replace(hint="No record was added; the file is as it was.") for problem in problems]
    return [Problem("busy", "The file changes all the time.", Place(str(path)), "Try again; nothing was written.")]


def _whole(before: bytes) -> bytes:
    """The file so far, its last line ended: an editor may have left that out."""
    return before + b"\n" if before and not before.endswith(b"\n") else before


def _read(path: Path) -> bytes | None:
    try:
        must_be_plain(path)
        return path.read_bytes()
    except FileNotFoundError:
        return None


def _cannot(path: Path, error: OSError) -> Problem:
    message = f"The record cannot be written: {error.strerror or error}."
    return Problem("cannot-write", message, Place(str(path)), "No record was added. Check the folder's permissions.")


@contextmanager
def _alone(folder: Path) -> Iterator[None]:
    """Hold the lock of a folder, where the system and the disk have one."""
    try:
        import fcntl
    except ImportError:  # a system without: the look before the move has to do
        yield
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        end = time.monotonic() + PATIENCE
        while True:
            try:
                fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
                break
            except BlockingIOError:
                if time.monotonic() > end:
                    raise TimeoutError from None
                time.sleep(0.01)
            except OSError:  # a disk that knows no locks
                break
        yield
    finally:
        with suppress(OSError):
            os.close(handle)
