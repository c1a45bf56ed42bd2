"""A check of a motion file noted in the ledger, by the file's hash: so that it can be told which file was checked."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import Any

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.ledger.json_text import json_text
from profilesmith.ledger.place import LEDGER, ledger_beside
from profilesmith.ledger.write import FORMAT
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


def record_check(
    ledger: str, data: Mapping[str, Any], name: str, sha256: str, judged: Iterable[Mapping[str, Any]]
) -> None:
    """Note a check in the ledger file. data: the ledger as JSON. Raises Refused."""
    path = ledger_path(ledger)
    if data["format"] != FORMAT:
        message = f"The ledger has format {data['format']}, which holds no motion files."
        raise Refused([Problem("old-ledger", message, Place(str(path)), "Derive again to get a new ledger.")])
    items = list(judged)
    note = {
        "name": Path(name).name,
        "sha256": sha256,
        "passed": sum(item["verdict"] == "passed" for item in items),
        "found": [item["setting"] for item in items if item["verdict"] == "found"],
        "not_judged": sum(item["verdict"] == "not judged" for item in items),
    }
    earlier = [item for item in data.get("motion", ()) if item["sha256"] != sha256]
    new = {**data, "motion": [*earlier, note][-MOST_RECORDS:]}
    refuse_if(write_whole({path: json_text(new).encode()}, overwrite=True))
