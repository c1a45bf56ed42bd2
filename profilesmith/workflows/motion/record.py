"""A check of a motion file noted in the ledger, by the file's hash: so that it can be told which file was checked."""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Iterable, Iterator
from pathlib import Path

from profilesmith.foundation.problem import refuse_if
from profilesmith.ledger.history import MotionCheck
from profilesmith.ledger.place import LEDGER, ledger_beside
from profilesmith.ledger.read import Stored
from profilesmith.ledger.write import file_bytes
from profilesmith.motion.judging.outcome import JudgedSetting
from profilesmith.write_files import write_whole

MOST_RECORDS = 50


class Hashed:
    """Portions that are hashed on their way."""

    def __init__(self, portions: Iterable[bytes]) -> None:
        self._portions, self._hash = portions, hashlib.sha256()

    def __iter__(self) -> Iterator[bytes]:
        for portion in self._portions:
            self._hash.update(portion)
            yield portion

    @property
    def sha256(self) -> str:
        """Of all that has passed."""
        return self._hash.hexdigest()


def ledger_path(name: str) -> Path:
    """The ledger that a call names: itself, or the derived file that it lies beside."""
    return Path(name) if name.endswith(LEDGER) else ledger_beside(Path(name))


def record_check(ledger: str, stored: Stored, name: str, sha256: str, judged: Iterable[JudgedSetting]) -> None:
    """Note a check in the ledger file. Raises Refused."""
    path = ledger_path(ledger)
    items = list(judged)
    verdicts = Counter(item.outcome.verdict for item in items)
    note = MotionCheck(
        Path(name).name,
        sha256,
        verdicts["passed"],
        tuple(item.setting for item in items if item.outcome.verdict == "found"),
        verdicts["not judged"],
    )
    earlier = [item for item in stored.file.motion if item.sha256 != sha256]
    file = stored.file._replace(motion=(*earlier, note)[-MOST_RECORDS:])
    refuse_if(write_whole({path: file_bytes(file)}, overwrite=True))
