"""Hand edits that writing a derived file anew would destroy: found by the ledger beside it, before anything is
written.
"""

import json
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

from profilesmith.foundation.digest import sha256_hex
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.ledger.file import LARGEST_LEDGER
from profilesmith.ledger.place import LEDGER, ledger_beside
from profilesmith.review.wording import EDITS_UNKNOWN
from profilesmith.workflows.read import plain_bytes

MOST_NAMED = 3  # edits in a refusal; what is discarded on purpose is named in full


class AtStake(NamedTuple):
    """A file whose hand edits would be lost, or are. edits: how the review of hand edits tells each."""

    path: Path
    edits: tuple[str, ...]


def discarded_edits(files: Mapping[Path, bytes], discard: bool) -> tuple[AtStake, ...]:
    """What is lost by writing; () where nothing is. Raises Refused where ``discard`` does not allow it.

    files: what is to be written, and where.
    """
    at_stake = tuple(edits_at_stake(files))
    refuse_if([] if discard else map(_problem, at_stake))
    return at_stake


def edits_at_stake(files: Mapping[Path, bytes]) -> Iterator[AtStake]:
    """The files that a hand edited since they were derived, where their new bytes are others."""
    for path, new in files.items():
        now = None if path.name.endswith(LEDGER) else plain_bytes(path)
        if now is None or now == new:
            continue
        ledger = ledger_of(path)
        if ledger is not None and (edits := _edits(path, now, ledger)):
            yield AtStake(path, edits)


def ledger_of(path: Path) -> Path | None:
    """The ledger beside a file; or that of a sibling, which was derived in one go with it."""
    beside = ledger_beside(path)
    if beside.is_file():
        return beside
    siblings = sorted(path.parent.glob(f"*{LEDGER}"))
    return next((other for other in siblings if path.name in (_outline(other) or {})), None)


def _outline(ledger: Path) -> dict[str, tuple[str, bool]] | None:
    """Each output's hash, and whether edits were carried into it; None for what is no ledger."""
    raw = plain_bytes(ledger, LARGEST_LEDGER)
    try:
        data = json.loads(raw or b"")
        kept = bool(data.get("written"))
        return {item["name"]: (item["sha256"], kept) for item in data["outputs"]}
    except (ValueError, TypeError, KeyError, AttributeError, RecursionError):
        return None


def _edits(path: Path, now: bytes, ledger: Path) -> tuple[str, ...]:
    outputs = _outline(ledger)
    if outputs is None:
        return (EDITS_UNKNOWN,)
    names = list(outputs)
    # One file may have been renamed together with its ledger.
    then, kept = outputs.get(path.name if path.name in outputs or len(names) != 1 else names[0], ("", False))
    edited = sha256_hex(now) != then
    return _told(ledger, edited) if edited or kept else ()


def _told(ledger: Path, edited: bool) -> tuple[str, ...]:
    """The edits in words: those since it was written, and those that re-deriving carried into it."""
    from profilesmith.engine.edits_since import edits_since
    from profilesmith.review.decisions import remembered
    from profilesmith.workflows.derived_file import derived_file, load_ledger

    derived = ledger.with_name(ledger.name.removesuffix(LEDGER))
    try:
        stored = load_ledger(str(derived))
    except Refused:
        return (EDITS_UNKNOWN,)
    since = edits_since(derived_file(str(derived), stored)) if edited else []
    return (*since, *(remembered(stored.file.history) if stored.file.written else ()))


def _problem(item: AtStake) -> Problem:
    more = len(item.edits) - MOST_NAMED
    named: Sequence[str] = [*item.edits[:MOST_NAMED], *([f"and {more} more"] if more > 0 else [])]
    message = f"It was edited by hand since it was derived: {'; '.join(text.rstrip('.') for text in named)}."
    hint = f"Keep the edits with 'profilesmith rederive {item.path}', or lose them on purpose with --discard-edits."
    return Problem("hand-edits", message, Place(str(item.path)), hint)
