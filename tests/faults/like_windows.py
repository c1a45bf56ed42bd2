"""A stand-in for what the file system of Windows refuses, on Linux: it was written from the documentation of Windows'
``MoveFileEx``, ``DeleteFile`` and ``FlushFileBuffers`` and of Python's ``os``, and never run beside the real one.

No file that is open in this process is moved, replaced or deleted; nothing is flushed that is not open for writing;
there is no flock, and no link that does not follow links. ``PROFILESMITH_LIKE_WINDOWS=1 python -m pytest tests/...``
runs any tests on it.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

FDS = Path("/proc/self/fd")
WRITING = os.O_WRONLY | os.O_RDWR


def open_files() -> set[str]:
    """The real paths of all files that this process holds open."""
    found = set()
    for handle in os.listdir(FDS):
        try:
            found.add(os.readlink(FDS / handle))
        except OSError:
            continue
    return found


def _refuse_open(*names: Any) -> None:
    held = open_files()
    for name in names:
        if os.path.abspath(os.fspath(name)) in held and not os.path.isdir(name):
            raise PermissionError(13, "The process cannot access the file because it is being used", str(name))


def _moving(real: Callable[..., Any]) -> Callable[..., Any]:
    def move(source: Any, target: Any, **given: Any) -> Any:
        _refuse_open(source, target)
        if real is _RENAME and os.path.lexists(target):
            raise FileExistsError(17, "Cannot create a file when that file already exists", str(target))
        return real(source, target, **given)

    return move


_RENAME = os.rename


def be_like_windows(monkeypatch: pytest.MonkeyPatch) -> None:
    """From here to the end of a test."""
    remove, flush = os.unlink, os.fsync

    def unlink(name: Any, **given: Any) -> None:
        if "dir_fd" not in given or given["dir_fd"] is None:
            _refuse_open(name)
        remove(name, **given)

    def fsync(handle: int) -> None:
        flags = int(Path(f"/proc/self/fdinfo/{handle}").read_text().split("flags:")[1].split()[0], 8)
        if not flags & WRITING:
            raise OSError(9, "Bad file descriptor")
        flush(handle)

    def link(source: Any, target: Any, *, follow_symlinks: bool = True, **given: Any) -> None:
        if not follow_symlinks:
            raise NotImplementedError("link: follow_symlinks unavailable on this platform")
        raise OSError(1, "Incorrect function", str(source))

    monkeypatch.setattr(os, "replace", _moving(os.replace))
    monkeypatch.setattr(os, "rename", _moving(_RENAME))
    monkeypatch.setattr(os, "unlink", unlink)
    monkeypatch.setattr(os, "remove", unlink)
    monkeypatch.setattr(os, "fsync", fsync)
    monkeypatch.setattr(os, "link", link)
    monkeypatch.setitem(sys.modules, "fcntl", None)
