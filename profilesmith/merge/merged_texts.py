"""The texts of a re-derivation: raw keys, comments and lines merged into what the recipes and the settings' edits
made.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import CONFLICT, Problem, Refused
from profilesmith.ledger import Decision, Ledger
from profilesmith.merge.decision import KEPT, LEFT_OUT, Choose
from profilesmith.merge.held import Holding, holdings, same
from profilesmith.merge.raw_kinds import BESIDE, CARRIED, MAPPED, MOVED, RAW, SPELLED
from profilesmith.merge.raw_lines import RawMerge, merge_raw
from profilesmith.merge.replay import followed
from profilesmith.merge.settings import SettingMerge
from profilesmith.merge.sides import Sides
from profilesmith.merge.spelling import beside_changed, respell
from profilesmith.merge.three_way import alike
from profilesmith.text.document import Document, Edit
from profilesmith.text.edit_document import edit_document
from profilesmith.text.read_document import read_document, read_unless_same
from profilesmith.translation.document_to_profile import Translation, translate
from profilesmith.translation.ledger_to_edits import write_ledger
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

PACKED = "several-settings-in-one-value"
MEANS_MORE = "changes-other-lines"
Key = tuple[str, str]


class Merged(NamedTuple):
    """outputs: the new bytes; translation: how they read; before: how they read before whole lines were carried
    over.
    """

    outputs: tuple[bytes, ...]
    translation: Translation
    before: Translation
    decisions: tuple[Decision, ...]


def by_text(merges: Sequence[SettingMerge], sides: Sides) -> list[SettingMerge]:
    """The merges; those that only their line could carry, though it holds other settings too, are left out and
    named.
    """
    carried = {item.setting for item in merges if item.by_text}
    keys = _keys(sides)
    merged = []
    for item in merges:
        others = {name for name, key in keys.items() if key == keys.get(item.setting)}
        if item.by_text and not others <= carried:
            item = item._replace(
                holding=None,
                by_text=False,
                decision=item.decision._replace(outcome=LEFT_OUT, chosen="base", why=PACKED),
            )
        merged.append(item)
    return merged


def _keys(sides: Sides) -> dict[str, Key]:
    """Every setting's section and key in any of the three texts."""
    return {
        name: (spot.lines[0].assignment.section, spot.lines[0].assignment.key)
        for side in (sides.theirs, sides.mine, sides.old)
        for name, spot in side.spots.items()
    }


def merge_texts(sides: Sides, merges: Sequence[SettingMerge], outputs: Sequence[bytes], choose: Choose) -> Merged:
    """Merge. outputs: the new base with recipes and the settings' edits in it. Raises Refused."""
    habits = sides.mine.key_map.habits
    targets = tuple(
        read_unless_same(raw, item, habits) for raw, item in zip(outputs, sides.theirs.documents, strict=True)
    )
    carried = {item.setting for item in merges if item.by_text}
    before = _reading(targets, sides.theirs)
    wanted = _wanted(before, merges)
    kinds = _kinds(sides, merges, wanted)
    raws = [
        merge_raw(*four, lambda section, key: kinds.get((section, key), RAW), choose)
        for four in zip(sides.old.documents, sides.mine.documents, sides.theirs.documents, targets, strict=True)
    ]
    decisions = [decision for raw in raws for decision in raw.decisions]
    spelled = respell(before, {item.setting: item.texts for item in merges if item.texts})
    written = [
        _encoded(document, _together(raw, edits)) for document, raw, edits in zip(targets, raws, spelled, strict=True)
    ]
    after = before if written == list(outputs) else _read(written, targets, sides)
    wrong = _wrong(wanted, after)
    if wrong and carried:
        raise Refused([_cannot(wrong, targets[0])])
    if wrong:  # a line that a hand put in means something else in the new text
        decisions = [
            item._replace(outcome=LEFT_OUT, chosen="base", why=MEANS_MORE) if item.outcome == KEPT else item
            for item in decisions
        ]
        written = [_encoded(document, edits) for document, edits in zip(targets, spelled, strict=True)]
        return Merged(tuple(written), _read(written, targets, sides), before, tuple(decisions))
    return Merged(tuple(written), after, before, tuple(decisions))


def _reading(documents: tuple[Document, ...], known: Translation) -> Translation:
    """How some texts read; without hand edits they are what the recipes alone made, and read already."""
    if [item.text for item in documents] == [item.text for item in known.documents]:
        return known
    return translate(documents, known.key_map, load_vocabulary())


def _kinds(sides: Sides, merges: Sequence[SettingMerge], wanted: dict[str, Holding]) -> dict[Key, str]:
    """How each key that the map knows is merged."""
    names: dict[Key, list[str]] = {}
    for name, key in _keys(sides).items():
        names.setdefault(key, []).append(name)
    mine, merged = holdings(sides.mine, load_vocabulary()), {item.setting: item for item in merges}
    return {key: _kind(sides, bound, merged, wanted, mine) for key, bound in names.items()}


def _kind(
    sides: Sides,
    names: Sequence[str],
    merged: Mapping[str, SettingMerge],
    wanted: Mapping[str, Holding],
    mine: Mapping[str, Holding],
) -> str:
    merges = [merged[name] for name in names if name in merged]
    if any(item.by_text for item in merges):
        return CARRIED
    if merges and not any(beside_changed(sides.old, sides.mine, name) for name in names):
        return MAPPED
    if not all(alike(wanted.get(name, ()), mine.get(name, ()), same) for name in names):
        return MOVED
    return BESIDE if merges else SPELLED


def _together(raw: RawMerge, spelled: Sequence[Edit]) -> list[Edit]:
    """The edits of a text; where a whole value is put in as the hand wrote it, its pieces are in it."""
    return [
        *raw.edits,
        *(
            edit
            for edit in spelled
            if not any(whole.start <= edit.start and edit.end <= whole.end for whole in raw.edits)
        ),
    ]


def as_made(before: Translation, pure: Translation, merges: Sequence[SettingMerge]) -> tuple[bytes, ...]:
    """The texts with every hand edit taken back: what the next hand edits are told from.

    pure: what the recipes alone make of the new base. What the recipes made of other settings because of an edit stays:
    the next time it must not be taken for an edit.
    """
    carried = {item.setting for item in merges if item.holding and not item.by_text}
    spelled = {item.setting for item in merges if item.texts}
    as_text = {item.setting for item in merges if item.decision.what in spelled and item.setting in carried} | spelled
    entries, then = dict(before.profile.entries), pure.profile.entries
    for name in (carried - as_text) & entries.keys() & then.keys():
        entries[name] = entries[name]._replace(values=then[name].values, shares=then[name].shares)
    derived = before.profile._replace(entries=followed(entries))
    ledger = Ledger(base=before.profile, derived=derived, rows=(), recipes=())
    edits = write_ledger(ledger, before, load_vocabulary()).edits
    texts = {
        name: [held.text for held in holding]
        for name, holding in holdings(pure, load_vocabulary()).items()
        if name in as_text
    }
    return tuple(
        edit_document(document, [*changes, *more])
        for document, changes, more in zip(before.documents, edits, respell(before, texts), strict=True)
    )


def _encoded(document: Document, edits: Sequence[Edit]) -> bytes:
    try:
        return edit_document(document, edits)
    except UnicodeEncodeError as error:
        message = (
            f"The new base's encoding ({document.codec}) has no "
            f"{error.object[error.start : error.end]!r}, which a hand edit holds."
        )
        raise Refused([Problem("encoding", message, Place(document.name), "Save the new base as UTF-8.")]) from error


def _read(written: Sequence[bytes], targets: Sequence[Document], sides: Sides) -> Translation:
    documents = tuple(
        read_document(raw, item.name, sides.mine.key_map.habits, item.delimiter)
        for raw, item in zip(written, targets, strict=True)
    )
    return translate(documents, sides.mine.key_map, load_vocabulary())


def _wanted(before: Translation, merges: Sequence[SettingMerge]) -> dict[str, Holding]:
    """What every setting is to hold: as written already, and what whole lines bring."""
    wanted = dict(holdings(before, load_vocabulary()))
    for item in merges:
        if item.holding is not None and (item.by_text or item.texts):
            wanted[item.setting] = item.holding
    return {name: holding for name, holding in wanted.items() if holding}


def _wrong(wanted: dict[str, Holding], after: Translation) -> list[str]:
    """The settings that read differently from what was decided."""
    got = holdings(after, load_vocabulary())
    return [name for name in {**wanted, **got} if not alike(wanted.get(name, ()), got.get(name, ()), same)] + [
        problem.message for problem in after.problems
    ]


def _cannot(wrong: Sequence[str], document: Document) -> Problem:
    message = (
        f"The hand edits cannot be carried over: {', '.join(wrong[:5])} would read differently from what was decided."
    )
    hint = "Nothing was written. Take what the new base has, or derive anew and edit by hand."
    return Problem("not-carried", message, Place(document.name), hint, CONFLICT)
