"""Bytes that behave like a file's path, so that a loader reads them without a file."""

from __future__ import annotations

import io
from pathlib import PurePosixPath


class Held(PurePosixPath):
    """A path whose file is in memory."""

    content: bytes = b""

    def read_bytes(self) -> bytes:
        return self.content

    def open(self, mode: str = "rb") -> io.BytesIO:
        return io.BytesIO(self.content)

    def is_file(self) -> bool:
        return True

    def is_dir(self) -> bool:
        return False


def held(content: bytes, name: str = "held.toml") -> Held:
    path = Held(name)
    path.content = content
    return path
