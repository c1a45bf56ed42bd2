"""Files that a ledger names. It may come from a stranger and name anything: a pipe has no end, a device no size."""

from __future__ import annotations

from pathlib import Path

from profilesmith.foundation.digest import sha256_hex
from profilesmith.foundation.read_file import at_most
from profilesmith.workflows.read import LARGEST_TEXT


def plain_bytes(path: Path, most: int = LARGEST_TEXT) -> bytes | None:
    """A file's bytes; None for one that is missing, cannot be read, is no plain file, or has more than ``most``
    bytes.
    """
    try:
        if not path.is_file():
            return None
        with path.open("rb", 0) as stream:
            raw = at_most(stream, most + 1)
    except (OSError, ValueError):
        return None
    return raw if len(raw) <= most else None


def sha256_of(path: Path) -> str:
    """The hash of a file's bytes, in hexadecimal digits; "" where ``plain_bytes`` has none."""
    raw = plain_bytes(path)
    return "" if raw is None else sha256_hex(raw)
