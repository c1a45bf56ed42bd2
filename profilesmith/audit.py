"""Holds the new bytes against the ledger before anything is written.

Our own reader (the derived profile, exactly; every raw entry), and configparser on every line that it can read: one
that it read as we did before, it must read as we do after. A finding is a fault of ours; it stops the export.
"""

from __future__ import annotations

from bisect import bisect_right
from collections import Counter
from collections.abc import Sequence

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import CONFLICT, Problem
from profilesmith.profile.compare_profiles import compare_profiles
from profilesmith.profile.profile import Profile
from profilesmith.text.document import Assignment, Document, Edit, line_ends
from profilesmith.text.edit_document import edit_text, in_order
from profilesmith.text.read_document import read_document
from profilesmith.text.second_reader import KeyRead, SecondReader
from profilesmith.translation.document_to_profile import Translation
from profilesmith.translation.read_again import read_again, where

_Name = tuple[str, str]
"""Section and key."""
_INSIDE = ("", " ", "\t")
"""How a line begins that may belong to the entry above it."""
_Lines = list[tuple[int, str]]


def audit(
    before: Translation,
    edits: Sequence[Sequence[Edit]],
    written: Sequence[bytes],
    derived: Profile,
) -> list[Problem]:
    """Everything that the new bytes say differently from the ledger."""
    habits = before.key_map.habits
    problems: list[Problem] = []
    after = tuple(
        read_document(raw, document.name, habits, document.delimiter, document.codec)
        for raw, document in zip(written, before.documents, strict=True)
    )
    strange = [
        _other_encoding(old, new) for old, new in zip(before.documents, after, strict=True) if old.codec != new.codec
    ]
    if strange:
        return strange
    for old, new, changes in zip(before.documents, after, edits, strict=True):
        matched = _matched(old, new)
        names = _named(old, changes) | {(item.section, item.key) for item in matched.new}
        problems += _spans(old, new, changes)
        problems += _lines_stay(old, changes)
        problems += _raw_entries(old, new, matched, names)
        problems += _second_reader(old, new, matched, names, before.readings.second_reader(old.delimiter))
    for difference in compare_profiles(derived, read_again(after, before)):
        wanted, got = difference.old or ("nothing",), difference.new or ("nothing",)
        problems.append(_fault(after[0], f"{difference.setting} should read {wanted} but reads {got}"))
    return problems


def _other_encoding(old: Document, new: Document) -> Problem:
    """A text that begins with a mark of an encoding that it does not have: an edit may make it fit."""
    message = f"With this change the text would be read as {new.codec}; it was read as {old.codec}."
    hint = "Nothing was written. Its first bytes are those of another encoding: save it anew in one."
    return Problem("encoding", message, Place(old.name), hint, CONFLICT)


def _fault(document: Document, message: str) -> Problem:
    hint = "Nothing was written. This is a fault of profilesmith: please report it with the map and the line."
    return Problem(
        "audit", f"The new text does not say what the ledger says: {message}.", Place(document.name), hint, CONFLICT
    )


def _spans(old: Document, new: Document, edits: Sequence[Edit]) -> list[Problem]:
    """Taking every edit back must give the old text."""
    undo, shift = [], 0
    for edit in in_order(edits):
        start = edit.start + shift
        undo.append(Edit(start, start + len(edit.new), old.text[edit.start : edit.end]))
        shift += len(edit.new) - (edit.end - edit.start)
    return (
        [] if edit_text(new.text, undo) == old.text else [_fault(old, "a byte outside of the changed values differs")]
    )


def _lines_stay(old: Document, edits: Sequence[Edit]) -> list[Problem]:
    """No value that a map can bind goes over a line end, so no edit may take one away."""
    lost = [edit for edit in edits if line_ends(old.text, edit.start, edit.end)]
    return [_fault(old, f"line {old.line_at(edit.start)} would lose its line end") for edit in lost]


def _named(document: Document, edits: Sequence[Edit]) -> set[_Name]:
    """The keys whose value an edit lies in, and those that an insertion adds."""
    names: set[_Name] = set()
    starts = [item.start for item in document.assignments]
    for edit in edits:
        at = bisect_right(starts, edit.start) - 1
        item = document.assignments[at] if at >= 0 else None
        if item is not None and edit.end <= item.end and (edit.end > edit.start or item.start == item.end):
            names.add((item.section, item.key))
    return names


class _Matched(NamedTuple):
    """Each assignment of the old text with the one that says its key now (of equal keys, the one at its place among
    them).

    new: those of keys that only the new text has; more: of keys that the old one has fewer times.
    """

    both: list[tuple[Assignment, Assignment | None]]
    new: list[Assignment]
    more: list[Assignment]


def _matched(old: Document, new: Document) -> _Matched:
    if [*map(where, old.assignments)] == [*map(where, new.assignments)]:  # as mostly
        return _Matched([*zip(old.assignments, new.assignments, strict=True)], [], [])
    before, after = _by_name(old), _by_name(new)
    both = [(item, after.get(name)) for name, item in before.items()]
    added = [(name, item) for name, item in after.items() if name not in before]
    return _Matched(
        both, [item for (_, count), item in added if not count], [item for (_, count), item in added if count]
    )


def _by_name(document: Document) -> dict[tuple[_Name, int], Assignment]:
    """Every assignment by section and key, and how many such came before."""
    seen: Counter[_Name] = Counter()
    by_name = {}
    for item in document.assignments:
        name = item.section, item.key
        by_name[name, seen[name]] = item
        seen[name] += 1
    return by_name


def _raw_entries(old: Document, new: Document, matched: _Matched, names: set[_Name]) -> list[Problem]:
    """Exactly the named entries differ."""
    before, after = old.text, new.text
    differing = [
        was for was, now in matched.both if now is None or before[was.start : was.end] != after[now.start : now.end]
    ]
    extra = {(item.section, item.key) for item in (*differing, *matched.new, *matched.more)} - names
    return [_fault(old, f"{key!r} differs though no rule names it") for _, key in sorted(extra)]


def _second_reader(
    old: Document, new: Document, matched: _Matched, names: set[_Name], reader: SecondReader
) -> list[Problem]:
    """configparser on both texts: lines that it read as we did in the old one, it must read as we do in the new one.

    What it divides otherwise it cannot judge: that is a layout that it does not know.
    """
    before, after = (reader.read(lines) for lines in _differing_lines(old, new))
    divided = [(was, now) for was, now in matched.both if was.line in before]
    entries = Counter([was.line for was, _ in divided])
    problems = []
    for ours, now in divided:
        was, mine = before[ours.line], old.value(ours).strip()
        if was.key != ours.key:
            continue
        behind = _behind(was.value, mine) if entries[ours.line] == 1 else ""
        if was.value != mine and not behind:
            continue
        is_now = after.get(now.line) if now else None
        problems += _opinion(old, ours, was, is_now, (new.value(now).strip() if now else "") + behind)
        if is_now is not None and is_now.value != was.value and (ours.section, ours.key) not in names:
            problems.append(_fault(old, f"a second reader finds {ours.key!r} changed though no rule names it"))
    return problems


def _behind(value: str, mine: str) -> str:
    """What configparser counts as a part of a value, and we as a remark behind it; "" where it divides otherwise."""
    plain = value.startswith(mine) and mine[:1] not in "'\"" and "\n" not in value
    return value[len(mine) :] if plain else ""


def _opinion(old: Document, ours: Assignment, was: KeyRead, is_now: KeyRead | None, read: str) -> list[Problem]:
    """On a line that both readers divided alike in the old text. read: as we read it now, with what stands behind."""
    section, key = ours.section, ours.key
    if is_now is None:
        return [_fault(old, f"a second reader could read {key!r} in the old text but not in the new one")]
    if (is_now.key, is_now.value) != (key, read):
        return [_fault(old, f"a second reader reads {is_now.key!r} as {is_now.value!r}, we {key!r} as {read!r}")]
    if was.section == section != is_now.section:
        return [_fault(old, f"a second reader reads {key!r} in {is_now.section!r}, we in {section!r}")]
    return []


def _differing_lines(old: Document, new: Document) -> tuple[_Lines, _Lines]:
    """The lines that differ, numbered, with the whole entries that they belong to: elsewhere any reader reads the same.

    All lines, where some were added.
    """
    before, after = old.lines(), new.lines()
    if len(before) != len(after):
        return [*enumerate(before, 1)], [*enumerate(after, 1)]
    rows = _entries_of([at for at, line in enumerate(before) if line != after[at]], before, after)
    return [(at + 1, before[at]) for at in rows], [(at + 1, after[at]) for at in rows]


def _entries_of(changed: Sequence[int], before: Sequence[str], after: Sequence[str]) -> list[int]:
    """The lines of all entries that have one of ``changed``, and the headings above them."""
    headings = [at for at, line in enumerate(after) if line.startswith("[")] if changed else []
    rows: set[int] = set()
    for at in changed:
        first = at
        while first and (before[first][:1] in _INSIDE or after[first][:1] in _INSIDE):
            first -= 1
        last = at + 1
        while last < len(after) and (before[last][:1] in _INSIDE or after[last][:1] in _INSIDE):
            last += 1
        above = bisect_right(headings, first)
        rows |= {*headings[above - 1 : above], *range(first, last)}
    return sorted(rows)
