"""Holds the new bytes against the ledger before anything is written.

Our own reader (the derived profile, exactly; every raw entry), and configparser on every line that it can read: one
that it read as we did before, it must read as we do after. A finding is a fault of ours; it stops the export.
"""

from __future__ import annotations

from bisect import bisect_right
from collections import Counter
from collections.abc import Mapping, Sequence

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import CONFLICT, Problem
from profilesmith.profile.compare_profiles import compare_profiles
from profilesmith.profile.profile import Profile
from profilesmith.text.document import Document, Edit, line_ends
from profilesmith.text.edit_document import edit_text, in_order
from profilesmith.text.read_document import read_document
from profilesmith.text.second_reader import KeyRead, SecondReader
from profilesmith.translation.document_to_profile import Translation
from profilesmith.translation.read_again import read_again

Names = set[tuple[str, str]]
_INSIDE = ("", " ", "\t")
"""How a line begins that may belong to the entry above it."""
_Raw = Mapping[tuple[str, str, int], str]
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
        ours = old.entries(), new.entries()
        names = _named(old, changes) | _added(*ours)
        problems += _spans(old, new, changes)
        problems += _lines_stay(old, changes)
        problems += _raw_entries(old, *ours, names)
        problems += _second_reader(old, new, ours, names, before.readings.second_reader(old.delimiter))
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


def _named(document: Document, edits: Sequence[Edit]) -> Names:
    """The keys whose value an edit lies in, and those that an insertion adds."""
    names: Names = set()
    starts = [item.start for item in document.assignments]
    for edit in edits:
        at = bisect_right(starts, edit.start) - 1
        item = document.assignments[at] if at >= 0 else None
        if item is not None and edit.end <= item.end and (edit.end > edit.start or item.start == item.end):
            names.add((item.section, item.key))
    return names


def _added(before: _Raw, after: _Raw) -> Names:
    """The keys that only the new text has."""
    return {(section, key) for section, key, count in after.keys() - before.keys() if not count}


def _raw_entries(old: Document, before: _Raw, after: _Raw, names: Names) -> list[Problem]:
    """Exactly the named entries differ."""
    differing = [name for name, was in before.items() if was != after.get(name)]
    extra = {name[:2] for name in (*differing, *(after.keys() - before.keys()))} - names
    return [_fault(old, f"{key!r} differs though no rule names it") for _, key in sorted(extra)]


def _second_reader(
    old: Document, new: Document, ours: tuple[_Raw, _Raw], names: Names, reader: SecondReader
) -> list[Problem]:
    """configparser on both texts: lines that it read as we did in the old one, it must read as we do in the new one.

    What it divides otherwise it cannot judge: that is a layout that it does not know.
    """
    before, after = (reader.read(lines) for lines in _differing_lines(old, new))
    if not before:
        return []
    places = {name: item.line for name, item in zip(ours[1], new.assignments, strict=True) if item.line in after}
    both = zip(ours[0].items(), old.assignments, strict=True)
    divided = [(name, value.strip(), item.line) for (name, value), item in both if item.line in before]
    entries = Counter(line for _, _, line in divided)
    problems = []
    for name, mine, line in divided:
        was = before[line]
        if was.key != name[1]:
            continue
        behind = _behind(was.value, mine) if entries[line] == 1 else ""
        if was.value != mine and not behind:
            continue
        is_now = after.get(places.get(name, 0))
        problems += _opinion(old, name, was, is_now, ours[1].get(name, "").strip() + behind)
        if is_now is not None and is_now.value != was.value and name[:2] not in names:
            problems.append(_fault(old, f"a second reader finds {name[1]!r} changed though no rule names it"))
    return problems


def _behind(value: str, mine: str) -> str:
    """What configparser counts as a part of a value, and we as a remark behind it; "" where it divides otherwise."""
    plain = value.startswith(mine) and mine[:1] not in "'\"" and "\n" not in value
    return value[len(mine) :] if plain else ""


def _opinion(
    old: Document, name: tuple[str, str, int], was: KeyRead, is_now: KeyRead | None, read: str
) -> list[Problem]:
    """On a line that both readers divided alike in the old text. read: as we read it now, with what stands behind."""
    section, key, _ = name
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
