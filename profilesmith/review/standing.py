"""Every value that a profile holds, beside what it was before: what a whole sheet shows."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from profilesmith.ledger import WRITING, Ledger, Row
from profilesmith.profile.profile import Entry, Profile, absent_words
from profilesmith.review.review import NoValue, Standing, StandingValues
from profilesmith.review.wording import key_words, visible
from profilesmith.vocabulary.setting import Setting, Value, Vocabulary

if TYPE_CHECKING:
    from profilesmith.review.edited_now import EditedNow


def held_values(now: Profile, vocabulary: Vocabulary, before: Profile | None = None) -> StandingValues:
    """The values of a profile, in the vocabulary's order. before: what it is held against; None for a profile alone."""
    standing = tuple(
        _standing(now.entries[name], setting, before)
        for name, setting in vocabulary.settings.items()
        if name in now.entries
    )
    gone = tuple(
        NoValue(name, visible(absent_words(now.absent[name])))
        for name in vocabulary.settings
        if name in now.absent and name not in now.entries
    )
    return StandingValues(standing, gone)


def derived_values(
    ledger: Ledger, vocabulary: Vocabulary, edits: Mapping[str, EditedNow], now: Profile | None = None
) -> StandingValues:
    """The values of a derived file as it stands. now: as the file was read; None where only its ledger is there.

    With a conflict nothing was written: then they are the base's.
    """
    if ledger.problems:
        return held_values(ledger.base, vocabulary)
    held = held_values(now or _with_edits(ledger.derived, edits), vocabulary, ledger.base)
    if now is None:
        held = held._replace(standing=_spelled(held.standing, ledger))
    marked = (
        _edited(item, edits[item.setting], vocabulary) if item.setting in edits else item for item in held.standing
    )
    return held._replace(standing=tuple(marked))


def _with_edits(derived: Profile, edits: Mapping[str, EditedNow]) -> Profile:
    entries = {name: entry for name, entry in derived.entries.items() if name not in edits or edits[name].now}
    return derived._replace(
        entries={
            name: entry._replace(values=edits[name].now) if name in edits else entry for name, entry in entries.items()
        }
    )


def _spelled(standing: tuple[Standing, ...], ledger: Ledger) -> tuple[Standing, ...]:
    """With the texts that were written; a profile keeps those of the base, and one read from a ledger has no places."""
    rows = {row.setting: row for row in ledger.rows if row.key and not row.has("further line")}
    written = [row for row in ledger.of_status(*WRITING) if row.key and row.cause.kind != "start block"]
    own = {row.setting: row for row in written if not row.has("further line")}
    shared = {(visible(row.file), row.line, key_words(row)): row for row in written}  # several settings in one text

    def row_of(item: Standing) -> Row | None:
        of_line = shared.get((item.file, item.line, item.key))
        return own.get(item.setting) or of_line or (None if item.key else rows.get(item.setting))

    return tuple(
        item._replace(key=key_words(row), text=visible(row.new_text), file=visible(row.file), line=row.line)
        if (row := row_of(item))
        else item
        for item in standing
    )


def _edited(item: Standing, edit: EditedNow, vocabulary: Vocabulary) -> Standing:
    """One that a hand edited since: the place is the one where it stands now."""
    made = _words(vocabulary.settings[item.setting], edit.made)
    marked = item._replace(edited=True, follows=edit.follows, recipe_value=made)
    return marked._replace(key=key_words(edit), text=visible(edit.text), line=edit.line) if edit.key else marked


def _standing(entry: Entry, setting: Setting, before: Profile | None) -> Standing:
    old, origin = before.values(setting.id) if before else (), entry.origin
    return Standing(
        setting.id,
        setting.area,
        _words(setting, entry.values),
        _words(setting, old),
        before is not None and _each(old) != _each(entry.values),
        key_words(origin),
        visible(origin.text),
        visible(origin.file),
        origin.line,
    )


def _each(values: tuple[Value, ...]) -> tuple[Value, ...]:
    """One value where all tools have the same."""
    return values[:1] if len(set(values)) == 1 else values


def _words(setting: Setting, values: tuple[Value, ...]) -> tuple[str, ...]:
    return tuple(visible(setting.show(value)) for value in _each(values))
