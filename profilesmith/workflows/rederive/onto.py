"""What ``--onto`` means for one ledger: bases by name, or a folder that holds newer ones of the same names."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path

from profilesmith.ledger.read import Stored
from profilesmith.workflows.request_again import base_words


def onto_of(stored: Stored, folder: Path, onto: Sequence[str]) -> tuple[str, ...]:
    """The new bases; () where none are named, and the ledger's own count. folder: where the ledger lies."""
    if len(onto) == 1 and os.path.isdir(onto[0]):
        return tuple(str(Path(onto[0]) / path.name) for path in base_words(stored, folder))
    return tuple(onto)
