"""The texts of a re-derivation: raw keys, comments and lines merged into what the recipes and the settings' edits made."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import CONFLICT, Problem, Refused
from profilesmith.merge.decision import KEPT, LEFT_OUT, Choose, Decision
from profilesmith.merge.held import Holding, holdings, same
from profilesmith.merge.raw_lines import CARRIED, MAPPED, RAW, merge_raw
from profilesmith.merge.replay import followed
from profilesmith.merge.settings import SettingMerge
from profilesmith.merge.three_way import alike
from profilesmith.profile.ledger import Ledger
from profilesmith.profile.profile import Profile
from profilesmith.text.document import Document, Edit
from profilesmith.text.edit_document import edit_document
from profilesmith.text.read_document import read_document
from profilesmith.translation.document_to_profile import Translation, translate
from profilesmith.translation.ledger_to_edits import write_ledger
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.rederive.sides import Sides

PACKED = "its key holds several settings in one value; set it by hand"
MEANS_MORE = "carried over it would change what other lines say"
Key = tuple[str, str]


class Merged(NamedTuple):
    """outputs: the new bytes; translation: how they read; before: how they read before whole lines were carried over."""

    outputs: tuple[bytes, ...]
    translation: Translation
    before: Translation
    decisions: tuple[Decision, ...]


def by_text(merges: Sequence[SettingMerge], sides: Sides) -> list[SettingMerge]:
    """The merges; those that only their line could carry, though it holds other settings too, are left out and named."""
    carried = {item.setting for item in merges if item.by_text}
    keys = _keys(sides)
    found = []
    for item in merges:
        others = {name for name, key in keys.items() if key == keys.get(item.setting)}
        if item.by_text and not others <= carried:
            item = item._replace(holding=None, by_text=False, decision=item.decision._replace(outcome=LEFT_OUT, chosen="base", why=PACKED))
        found.append(item)
    return found


def _keys(sides: Sides) -> dict[str, Key]:
    """Every setting's section and key in any of the three texts."""
    return {
        name: (spot.lines[0].assignment.section, spot.lines[0].assignment.key)
        for side in (sides.theirs, sides.mine, sides.old) for name, spot in side.spots.items()
    }  # fmt: skip


def merge_texts(sides: Sides, merges: Sequence[SettingMerge], outputs: Sequence[bytes], choose: Choose) -> Merged:
    """Merge. outputs: the new base with recipes and the settings' edits in it. Raises Refused."""
    habits, key_map = sides.mine.key_map.habits, sides.mine.key_map
    targets = tuple(read_document(raw, item.name, habits, item.delimiter) for raw, item in zip(outputs, sides.theirs.documents, strict=True))
    carried = {item.setting for item in merges if item.by_text}
    keys = _keys(sides)
    kinds: dict[Key, str] = {}
    for name, key in keys.items():
        kinds[key] = CARRIED if name in carried else kinds.get(key, MAPPED)
    raws = [
        merge_raw(*four, lambda section, key: kinds.get((section, key), RAW), choose)
        for four in zip(sides.old.documents, sides.mine.documents, sides.theirs.documents, targets, strict=True)
    ]  # fmt: skip
    decisions = [decision for raw in raws for decision in raw.decisions]
    written = [_encoded(document, raw.edits) for document, raw in zip(targets, raws, strict=True)]
    after = _read(written, targets, sides)
    before = translate(targets, key_map, load_vocabulary())
    wrong = _wrong(_wanted(before, merges), after)
    if wrong and carried:
        raise Refused([_cannot(wrong, targets[0])])
    if wrong:  # a line that a hand put in means something else in the new text
        decisions = [item._replace(outcome=LEFT_OUT, chosen="base", why=MEANS_MORE) if item.outcome == KEPT else item for item in decisions]
        return Merged(tuple(outputs), before, before, tuple(decisions))
    return Merged(tuple(written), after, before, tuple(decisions))


def as_made(before: Translation, pure: Profile, merges: Sequence[SettingMerge]) -> tuple[bytes, ...]:
    """The texts with every hand edit taken back: what the next hand edits are told from.

    What the recipes made of other settings because of an edit stays: the next time it must not be taken for an edit.
    """
    carried = {item.setting for item in merges if item.holding and not item.by_text}
    entries = dict(before.profile.entries)
    for name in carried & entries.keys() & pure.entries.keys():
        entries[name] = entries[name]._replace(values=pure.entries[name].values, shares=pure.entries[name].shares)
    derived = before.profile._replace(entries=followed(entries))
    ledger = Ledger(base=before.profile, derived=derived, rows=(), recipes=())
    edits = write_ledger(ledger, before, load_vocabulary()).edits
    return tuple(edit_document(document, changes) for document, changes in zip(before.documents, edits, strict=True))


def _encoded(document: Document, edits: Sequence[Edit]) -> bytes:
    try:
        return edit_document(document, edits)
    except UnicodeEncodeError as error:
        message = f"The new base's encoding ({document.codec}) has no {error.object[error.start : error.end]!r}, which a hand edit holds."
        raise Refused([Problem("encoding", message, Place(document.name), "Save the new base as UTF-8.")]) from error


def _read(written: Sequence[bytes], targets: Sequence[Document], sides: Sides) -> Translation:
    documents = tuple(read_document(raw, item.name, sides.mine.key_map.habits, item.delimiter) for raw, item in zip(written, targets, strict=True))
    return translate(documents, sides.mine.key_map, load_vocabulary())


def _wanted(before: Translation, merges: Sequence[SettingMerge]) -> dict[str, Holding]:
    """What every setting is to hold: as written already, and what whole lines bring."""
    wanted = dict(holdings(before, load_vocabulary()))
    for item in merges:
        if item.by_text and item.holding is not None:
            wanted[item.setting] = item.holding
    return {name: holding for name, holding in wanted.items() if holding}


def _wrong(wanted: dict[str, Holding], after: Translation) -> list[str]:
    """The settings that read differently from what was decided."""
    got = holdings(after, load_vocabulary())
    return [name for name in {**wanted, **got} if not alike(wanted.get(name, ()), got.get(name, ()), same)] + [problem.message for problem in after.problems]


def _cannot(wrong: Sequence[str], document: Document) -> Problem:
    message = f"The hand edits cannot be carried over: {', '.join(wrong[:5])} would read differently from what was decided."
    hint = "Nothing was written. Take the new base with --prefer base, or derive anew and edit by hand."
    return Problem("not-carried", message, Place(document.name), hint, CONFLICT)
