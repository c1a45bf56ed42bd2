"""The members of a record that tell of troubles and mends: what the print showed, and what was tried on the way
to it.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Protocol

from profilesmith.evidence.tried_mend import MOST_MENDS, TriedMend
from profilesmith.ledger.history import GRADES, MEND_VERDICTS
from profilesmith.vocabulary.setting import Unreadable, Vocabulary, read_value

MOST_TROUBLES, MOST_CHANGES, MOST_DID = 60, 24, 24
MEMBERS = ("date", "saw", "troubles", "changes", "did", "came")


class Complain(Protocol):
    """Notes a mistake: code, member, sentence, what to do."""

    def __call__(self, code: str, member: str, message: str, hint: str = "") -> None: ...


class Signs(Protocol):
    """How texts are judged: a day; a name of a person's own, bounded; a value as a text, bounded."""

    vocabulary: Vocabulary

    def day(self, text: str) -> bool: ...

    def name(self, text: object) -> bool: ...

    def short(self, path: str, value: Any) -> bool: ...


def read_seen(path: str, grades: object, signs: Signs, complain: Complain) -> dict[str, Any]:
    """Trouble -> grade. An empty object is left out, so that a record has one spelling."""
    if not isinstance(grades, dict) or not 1 <= len(grades) <= MOST_TROUBLES:
        complain("value", path, f"{path!r} must be an object of 1 to {MOST_TROUBLES} troubles.")
        return {}
    for name, grade in grades.items():
        if not signs.name(name):
            complain("value", path, f"{name[:80]!r} is no trouble's name.")
        if not isinstance(grade, str) or grade not in GRADES:
            complain("value", f"{path}, {name[:80]}", f"{name[:80]!r} must be one of {', '.join(GRADES)}.")
    return grades


def read_mends(mends: object, signs: Signs, complain: Complain) -> tuple[TriedMend, ...]:
    """What was tried, the oldest first."""
    if not isinstance(mends, list) or not 1 <= len(mends) <= MOST_MENDS:
        complain("value", "mends", f"'mends' must be a list of 1 to {MOST_MENDS} mends.")
        return ()
    return tuple(_mend(f"mends, {number}", item, signs, complain) for number, item in enumerate(mends, 1))


def _mend(path: str, members: object, signs: Signs, complain: Complain) -> TriedMend:
    if not isinstance(members, dict) or not members.keys() & {"changes", "did"}:
        complain("value", path, "A mend must be an object with 'changes' or 'did'.")
        return TriedMend()
    for key in members.keys() - set(MEMBERS):
        complain("unknown-key", path, f"The member {key[:80]!r} is not known.", f"Known: {', '.join(MEMBERS)}.")
    date, came = members.get("date", ""), members.get("came", "")
    if "date" in members and not (isinstance(date, str) and signs.day(date)):
        complain("value", f"{path}, date", "The day must be such as 2030-01-31.")
    if "came" in members and not (isinstance(came, str) and came in MEND_VERDICTS):
        complain("value", f"{path}, came", f"'came' must be one of {', '.join(MEND_VERDICTS)}.")
    return TriedMend(
        date,
        read_seen(f"{path}, saw", members["saw"], signs, complain) if "saw" in members else {},
        _names(f"{path}, troubles", members, "troubles", MOST_TROUBLES, signs.name, complain),
        _changes(f"{path}, changes", members["changes"], signs, complain) if "changes" in members else {},
        _names(f"{path}, did", members, "did", MOST_DID, signs.name, complain),
        came,
    )


def _names(
    path: str, members: dict[str, Any], key: str, most: int, fits: Callable[[object], bool], complain: Complain
) -> tuple[str, ...]:
    """A list of different names; () where it is not there."""
    names = members.get(key, [])
    is_list = isinstance(names, list) and len(names) <= most and (bool(names) or key not in members)
    if not is_list or not all(fits(name) for name in names) or len(set(map(str, names))) < len(names):
        complain("value", path, f"{key!r} must be a list of 1 to {most} different names.")
        return ()
    return tuple(names)


def _changes(path: str, changes: object, signs: Signs, complain: Complain) -> dict[str, tuple[str, str]]:
    """Setting -> its values before and after."""
    if not isinstance(changes, dict) or not 1 <= len(changes) <= MOST_CHANGES:
        complain("value", path, f"'changes' must be an object of 1 to {MOST_CHANGES} settings.")
        return {}
    read = {}
    for name, values in changes.items():
        setting = signs.vocabulary.settings.get(name)
        if setting is None:
            complain("unknown-key", path, f"{name[:80]!r} is no setting.")
        elif not isinstance(values, list) or len(values) != 2:
            complain("value", f"{path}, {name}", "There must be two values: before and after.")
        else:
            for text in values:
                value = read_value(setting, text) if signs.short(f"{path}, {name}", text) else None
                odd = (
                    value.reason if isinstance(value, Unreadable) else value is not None and setting.implausible(value)
                )
                if odd:
                    complain("setting-value", f"{path}, {name}", f"{name}: {odd}.")
            read[name] = (values[0], values[1])
    return read
