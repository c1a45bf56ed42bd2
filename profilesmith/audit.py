"""Holds the new bytes against the ledger before anything is written.

Our own reader (the derived profile, exactly; every raw entry), and configparser wherever the text is one that it can
read: what it read as we did before, it must read as we do after. A finding is a fault of ours; it stops the export.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import CONFLICT, Problem
from profilesmith.profile.compare_profiles import compare_profiles
from profilesmith.profile.profile import Profile
from profilesmith.text.cuts import BEFORE_NUMBER, COLUMNS
from profilesmith.text.document import Document, Edit, Habits, line_ends
from profilesmith.text.edit_document import edit_text, in_order
from profilesmith.text.read_document import read_document
from profilesmith.translation.document_to_profile import Translation, read_again

if TYPE_CHECKING:
    from configparser import RawConfigParser

Names = set[tuple[str, str]]
NO_SECTION = " "
"""Where configparser is given what stands above all headings."""
_INSIDE = ("", " ", "\t")
"""How a line begins that may belong to the entry above it."""
_Entries = Mapping[tuple[str, str], str]
_Raw = Mapping[tuple[str, str, int], str]


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
        problems += _second_reader(old, new, ours, names, habits)
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
    extra = {name[:2] for name in before.keys() | after.keys() if before.get(name) != after.get(name)} - names
    return [_fault(old, f"{key!r} differs though no rule names it") for _, key in sorted(extra)]


def _second_reader(
    old: Document, new: Document, ours: tuple[_Raw, _Raw], names: Names, habits: Habits
) -> list[Problem]:
    """configparser on both texts: what differs must be named, and read as we read it."""
    if not _is_known_to_it(habits):
        return []
    parser = _configparser(habits.delimiters or (old.delimiter,), habits)
    before, after = (_entries_in(lines, parser) for lines in _differing_lines(old, new))
    if before is None:
        return []
    if after is None:
        if _has_headings_of_its_own(old):
            return []
        return [_fault(old, "a second reader could read the old text but not the new one")]
    return [*_second_opinion(old, before, after, names), *_read_otherwise(old, ours, before, after)]


def _is_known_to_it(habits: Habits) -> bool:
    """Whether the second reader has a word for how a text is laid out."""
    odd = bool(habits.headings or habits.next_key or habits.value_first or habits.lines)
    return not odd and {COLUMNS, BEFORE_NUMBER, "|"}.isdisjoint(habits.delimiters)


def _has_headings_of_its_own(document: Document) -> bool:
    """``[name] and more``: configparser takes such a line for a heading, and we for what it is without one. So it knows
    another layout than we do, and sees a section twice where we see it once.
    """
    from configparser import RawConfigParser

    ours = {heading.line for heading in document.headings}
    lines = enumerate(document.text.replace("\r\n", "\n").replace("\r", "\n").split("\n"), 1)
    return any(number not in ours and RawConfigParser.SECTCRE.match(line.strip()) for number, line in lines)


def _differing_lines(old: Document, new: Document) -> tuple[str, str]:
    """The lines that differ, with the whole entries that they belong to: elsewhere any reader reads the same.

    All lines, where some were added.
    """
    before, after = (document.text.replace("\r\n", "\n").replace("\r", "\n").split("\n") for document in (old, new))
    if len(before) == len(after):
        rows = _entries_of([at for at, line in enumerate(before) if line != after[at]], before, after)
        before, after = [before[at] for at in rows], [after[at] for at in rows]
    return "\n".join(before), "\n".join(after)


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


def _second_opinion(old: Document, before: _Entries, after: _Entries, names: Names) -> list[Problem]:
    keys = {key for _, key in names}
    problems = []
    for name in sorted(before.keys() | after.keys()):
        if before.get(name) == after.get(name) or name[1] in keys:
            continue
        # That reader joins indented lines to the value above them: the change may be inside such a value.
        if not any("\n" in (side.get(name) or "") for side in (before, after)):
            problems.append(_fault(old, f"a second reader finds {name[1]!r} changed though no rule names it"))
    return problems


def _read_otherwise(old: Document, ours: tuple[_Raw, _Raw], before: _Entries, after: _Entries) -> list[Problem]:
    """Entries that both readers read alike in the old text, and not in the new one."""
    problems = []
    for name, value in before.items():
        was, is_now = (_sole_value(entries, *name) for entries in ours)
        if was == value and name in after and after[name] != is_now:
            problems.append(_fault(old, f"a second reader reads {name[1]!r} as {after[name]!r}, we as {is_now!r}"))
    return problems


def _sole_value(entries: _Raw, section: str, key: str) -> str | None:
    """The value of a key that stands once in its section, without the blanks around it; None for any other."""
    name = section if section != NO_SECTION else ""
    text = entries.get((name, key, 0))
    return None if text is None or (name, key, 1) in entries else text.strip()


def _configparser(delimiters: Sequence[str], habits: Habits) -> RawConfigParser:
    """The second reader. It converts no values: each section would have methods of its own for that."""
    from configparser import RawConfigParser

    parser = RawConfigParser(
        delimiters=delimiters,
        comment_prefixes=habits.comments or ("#", ";", "//"),
        strict=True,
        default_section="\0",
        empty_lines_in_values=False,
    )
    parser.optionxform = str  # type: ignore[method-assign,assignment]
    for kind in [*parser.converters]:
        del parser.converters[kind]
    return parser


def _entries_in(lines: str, parser: RawConfigParser) -> _Entries | None:
    """All entries of some lines as configparser reads them; None for a text that is none of its kind."""
    from configparser import Error

    parser.clear()
    try:
        parser.read_string(f"[{NO_SECTION}]\n{lines}")
    except (Error, ValueError, AttributeError):
        return None
    return {(section, key): value or "" for section in parser.sections() for key, value in parser.items(section)}
