"""Sentences on a derived file that is, or is not, as it was written."""

from collections.abc import Iterable

from profilesmith.ledger import Line
from profilesmith.review.wording import visible


def as_it_was(by_hand: Iterable[str]) -> str:
    """That nobody edited the file. by_hand: the settings that a hand had edited before it was written."""
    names = ", ".join(map(visible, by_hand))
    kept = f", with values by hand that were kept: {names}" if names else ""
    return f"The derived file is as it was written{kept}."


def since(text: str, of_hand: bool) -> str:
    """A sentence on what is not as it was written, with its head; one that is not of an edit has its own."""
    return f"Edited since: {text}" if of_hand else text


def broken_off(left: str) -> str:
    """That a run did not end, or "". left: a file that it left."""
    if not left:
        return ""
    return (
        f"Broken off: a run that wrote here did not end ({left} was left): text and ledger may be of two derivations; "
        "derive again"
    )


def gone(name: str) -> str:
    """That a text is no longer there."""
    return f"{name} is gone"


def somewhere(name: str) -> str:
    """That a text was edited, and nobody can read where."""
    return f"{name}; where is not known, as its key map cannot be read"


def outside_the_map(name: str) -> str:
    """That a text was edited where no map reads."""
    return f"{name}, outside of all that the map knows"


def line_since(line: Line, before: str | None) -> str:
    """That a line that no map knows was put in, or says something else. before: what it said; None for a new one."""
    spot = f"({line.file}:{line.line})"
    if before is None:
        return f"{line.key} = {line.text} was put in {spot}"
    return f"{line.key} {before} → {line.text} {spot}"


def taken_out(key: str, text: str) -> str:
    """That a line was taken out."""
    return f"{key} = {text} was taken out"


def derived_from(name: str, bases: Iterable[str]) -> str:
    """What a stored review is of."""
    return f"{name}, derived from {', '.join(bases)}"


def read_with(names: Iterable[str], key_map: str) -> str:
    """What a review of some texts is of."""
    return f"{', '.join(names)} read with the map {key_map!r}"
