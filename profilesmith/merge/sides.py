"""The texts of a three-way merge: as made then, as edited since, as made from the new base."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from profilesmith.foundation.digest import sha256_hex
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.problem import refuse_if
from profilesmith.ledger import Ledger
from profilesmith.ledger.packed import unpack
from profilesmith.ledger.read import Stored
from profilesmith.profile.profile import Entry, Profile
from profilesmith.text.document import Document
from profilesmith.text.edit_document import edit_document
from profilesmith.text.read_document import read_document, read_unless_same
from profilesmith.translation.document_to_profile import Translation, translate
from profilesmith.translation.ledger_to_edits import write_ledger
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Value


class Sides(NamedTuple):
    """Three readings through one map. whole: the old text is known to the byte, so that every edit can be told."""

    old: Translation
    mine: Translation
    theirs: Translation
    whole: bool


def read_sides(stored: Stored, edited: Sequence[Document], base: Translation, outputs: Sequence[bytes]) -> Sides:
    """Read all three. edited: as they are now; base, outputs: the new base, and what the recipes make of it.
    Raises Refused.
    """
    key_map, vocabulary = base.key_map, load_vocabulary()
    mine = translate(tuple(edited), key_map, vocabulary)
    refuse_if(mine.problems)
    new = [
        read_document(raw, item.name, key_map.habits, item.delimiter)
        for raw, item in zip(outputs, base.documents, strict=True)
    ]
    old, whole = _old(stored, mine)
    refuse_if(old.problems)
    return Sides(old, mine, translate(tuple(new), key_map, vocabulary), whole)


def _old(stored: Stored, mine: Translation) -> tuple[Translation, bool]:
    """The derived text as made: from the ledger's copy, or the file itself when nobody edited it, or as far as it can
    be told.
    """
    copies = [unpack(word) for word in stored.file.made]
    if len(copies) != len(mine.documents):
        copies = [None] * len(mine.documents)
    documents, whole = [], True
    for number, (document, copy) in enumerate(zip(mine.documents, copies, strict=True)):
        raw = document.codec.encode(document.text)
        then = stored.file.outputs[number].sha256 if number < len(stored.file.outputs) else ""
        if copy is not None:
            documents.append(read_unless_same(copy, document, mine.key_map.habits))
        else:
            whole = whole and sha256_hex(raw) == then
            documents.append(document)
    is_mine = [item.text for item in documents] == [item.text for item in mine.documents]
    old = mine if is_mine else translate(tuple(documents), mine.key_map, load_vocabulary())
    return (old, True) if whole else (_restored(stored, old), False)


def _restored(stored: Stored, now: Translation) -> Translation:
    """The edited text with every setting put back to the ledger's value, for ledgers without a copy."""

    then = stored.ledger.derived.entries
    entries = {name: _put_back(entry, then) for name, entry in now.profile.entries.items()}
    derived = Profile(entries=entries, addable={}, absent={})
    ledger = Ledger(base=now.profile, derived=derived, rows=(), recipes=())
    edits = write_ledger(ledger, now, load_vocabulary()).edits
    documents = tuple(
        read_document(edit_document(document, changes), document.name, now.key_map.habits, document.delimiter)
        for document, changes in zip(now.documents, edits, strict=True)
    )
    return translate(documents, now.key_map, load_vocabulary())


def _put_back(entry: Entry, then: object) -> Entry:
    assert isinstance(then, dict)
    before: Entry | None = then.get(entry.setting)
    if before is None or len(before.values) != len(entry.values) or _close(before.values, entry.values):
        return entry
    if not entry.shares:
        return entry._replace(values=before.values)
    whole = then.get(entry.relative_to)
    shares = tuple(_share(value, whole, share) for value, share in zip(before.values, entry.shares, strict=True))
    # What followed its reference was not edited itself: its share is the one that it had.
    kept = tuple(
        share if mine is not None and share is not None and float(share) != float(mine) else mine
        for share, mine in zip(shares, entry.shares, strict=True)
    )
    return entry._replace(values=before.values, shares=kept)


def _share(value: Value, whole: Entry | None, share: Fraction | None) -> Fraction | None:
    if (
        share is None
        or whole is None
        or not isinstance(value, Fraction)
        or not isinstance(whole.value, Fraction)
        or not whole.value
    ):
        return share
    return value / whole.value


def _close(one: Sequence[Value], other: Sequence[Value]) -> bool:
    return all(
        float(a) == float(b) if isinstance(a, Fraction) and isinstance(b, Fraction) else a == b
        for a, b in zip(one, other, strict=True)
    )
