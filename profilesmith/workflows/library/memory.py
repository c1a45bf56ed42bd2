"""What earlier checks of a library came to, by the content of all that it depends on: `.profilesmith-cache` in the
library.

A record is looked up by what was looked at (a file, or recipes that were tried together) and holds the hash of all that
its result depends on; where that is another one now, the record counts for nothing. A record is signed with a secret of
this user, so that one that came with a stranger's library counts for nothing either. A record is whole or absent:
several checks may run at once, the last one stands. Whatever goes wrong with a record costs time and nothing else.
"""

from __future__ import annotations

import hashlib
import hmac
import json
import os
import secrets
import sys
import tempfile
from collections.abc import Iterable
from contextlib import suppress
from functools import cache
from pathlib import Path
from typing import Any, Final

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.library.find import shipped
from profilesmith.library.lay_out import CACHE_IGNORED

FOLDER: Final = ".profilesmith-cache"
PROGRAM_FILES = (".py", ".toml", ".json")
DIGEST = 32  # bytes of a signature


class Memory(NamedTuple):
    """folder: where the records lie, "" for a memory that remembers nothing. secret: this user's. program: its
    fingerprint.
    """

    folder: str = ""
    secret: bytes = b""
    program: str = ""

    def recall(self, name: str) -> dict[str, Any]:
        """The record of what was looked at; {} for none that counts."""
        if not self.folder:
            return {}
        with suppress(OSError, ValueError, RecursionError):
            raw = self._path(name).read_bytes()
            sign, text = raw[:DIGEST], raw[DIGEST:]
            if hmac.compare_digest(sign, self._sign(name, text)):
                record = json.loads(text)
                return record if isinstance(record, dict) and record.get("program") == self.program else {}
        return {}

    def keep(self, name: str, record: dict[str, Any]) -> None:
        """Put a record in place of an earlier one. A folder that cannot be written to remembers nothing."""
        if not self.folder:
            return
        text = json.dumps({**record, "program": self.program}, separators=(",", ":")).encode()
        with suppress(OSError):
            handle, waiting = tempfile.mkstemp(suffix=".part", dir=self.folder)
            try:
                with os.fdopen(handle, "wb") as stream:
                    stream.write(self._sign(name, text) + text)
                os.replace(waiting, self._path(name))
            except OSError:
                with suppress(OSError):
                    os.unlink(waiting)

    def forget_others(self, names: Iterable[str]) -> None:
        """Take out the records of what is not there any more."""
        if not self.folder:
            return
        kept = {self._path(name).name for name in names}
        with suppress(OSError):
            for path in Path(self.folder).glob("*.record"):
                if path.name not in kept:
                    path.unlink(missing_ok=True)

    def _path(self, name: str) -> Path:
        return Path(self.folder) / f"{hashlib.sha256(name.encode('utf-8', 'surrogateescape')).hexdigest()[:40]}.record"

    def _sign(self, name: str, text: bytes) -> bytes:
        return hmac.digest(self.secret, name.encode("utf-8", "surrogateescape") + b"\0" + text, "sha256")


NOTHING_REMEMBERED: Final = Memory()


def open_memory(library: Path) -> Memory:
    """The memory of a library; one that remembers nothing where its folder or the secret cannot be had."""
    folder = library / FOLDER
    try:
        if folder.is_symlink():  # a stranger's link leads where it likes
            return NOTHING_REMEMBERED
        folder.mkdir(exist_ok=True)
        ignored = folder / ".gitignore"
        if not ignored.exists():
            ignored.write_text(CACHE_IGNORED, encoding="utf-8")
        return Memory(str(folder), _secret(), program_fingerprint())
    except OSError:
        return NOTHING_REMEMBERED


def _secret() -> bytes:
    """This user's secret, made at its first use. Raises OSError."""
    home = os.environ.get("XDG_CACHE_HOME")
    folder = Path(home) if home else Path(os.path.expanduser("~")) / ".cache"
    path = folder / "profilesmith" / "secret"
    with suppress(FileNotFoundError):
        return _long_enough(path.read_bytes())
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, waiting = tempfile.mkstemp(dir=path.parent)
    with os.fdopen(handle, "wb") as stream:
        stream.write(secrets.token_bytes(DIGEST))
    try:
        os.link(waiting, path)  # of two that begin at once one secret stands
    except FileExistsError:
        pass
    except (OSError, NotImplementedError):
        os.replace(waiting, path)
    with suppress(OSError):
        os.unlink(waiting)
    return _long_enough(path.read_bytes())


def _long_enough(secret: bytes) -> bytes:
    if len(secret) < DIGEST:
        raise OSError("the secret is damaged")
    return secret


@cache
def program_fingerprint() -> str:
    """A hash of the program itself, its knowledge and its recipes: of the bytes, so that no version has to be
    raised for it.
    """

    import profilesmith

    total = hashlib.sha256(sys.version.encode())
    for place in (Path(profilesmith.__file__).parent, shipped()):
        for path in sorted(place.rglob("*")):
            if path.suffix in PROGRAM_FILES and path.is_file():
                total.update(f"{path.relative_to(place).as_posix()}\0".encode() + path.read_bytes())
    return total.hexdigest()


def hash_of(*parts: str | bytes) -> str:
    """One hash of several parts, which cannot run into one another."""
    total = hashlib.sha256()
    for part in parts:
        raw = part.encode("utf-8", "surrogateescape") if isinstance(part, str) else part
        total.update(len(raw).to_bytes(8, "big") + raw)
    return total.hexdigest()


def file_hash(path: Path) -> str:
    """Of a file's name and bytes; of the name alone where it cannot be read."""
    raw = b""
    with suppress(OSError):
        if path.is_file():
            raw = path.read_bytes()
    return hash_of(os.fspath(path), os.path.realpath(path), raw)
