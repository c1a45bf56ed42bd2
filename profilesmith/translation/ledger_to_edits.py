"""A ledger to the edits of each document, and the ledger again with old and new texts filled in."""

from bisect import bisect_left
from collections.abc import Mapping, Sequence
from fractions import Fraction

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger import WRITING, Ledger, Note, Row
from profilesmith.profile.profile import Entry
from profilesmith.text.document import Edit, line_ends
from profilesmith.text.edit_document import edit_text, in_order, insertion
from profilesmith.translation.couplings import Sharing
from profilesmith.translation.document_to_profile import Translation
from profilesmith.translation.key_map import SWITCH_WORDS
from profilesmith.translation.spelling import is_share, write_number, write_piece
from profilesmith.translation.spot import Spot
from profilesmith.translation.written_number import PLAIN, spell
from profilesmith.vocabulary.setting import Value, Vocabulary

_make = tuple.__new__  # a third of the time of a NamedTuple's own
Lost = tuple[tuple[str, ...], ...]
"""What new numbers cannot show of old ones: both, and the codes of ``written_number.style_lost``."""


class Placed(NamedTuple):
    """What a setting's row says of the text. lost: what of the old text's style the new one cannot show."""

    file: str
    line: int
    key: str
    old_text: str
    new_text: str
    lost: Lost = ()
    section: str = ""


class WrittenEdits(NamedTuple):
    """edits: for each document its edits. ledger: with texts."""

    edits: tuple[tuple[Edit, ...], ...]
    ledger: Ledger


def write_ledger(ledger: Ledger, translation: Translation, vocabulary: Vocabulary) -> WrittenEdits:
    """Spell every changed value into the place that it came from."""
    edits: list[list[Edit]] = [[] for _ in translation.documents]
    lost: dict[str, Lost] = {}
    added: dict[str, tuple[Placed, int, Edit]] = {}
    # A switch that is read off another setting's number is written by that number alone.
    riders = {entry.coupling.switch: name for name, entry in ledger.derived.entries.items() if entry.coupling}
    sharing = Sharing(translation.readings.sharers, ledger.derived)
    for name in _to_add(ledger, translation):
        if sharing.writer(name) == name:
            added[name] = _add(name, ledger.derived.entries[name], translation, vocabulary, edits)
    for name, entry in ledger.derived.entries.items():
        before = ledger.base.entries.get(name)
        if before is None or before is entry or name in riders:
            continue
        if before.values == entry.values and before.shares == entry.shares:
            continue
        lost[name] = _replace(translation.spots[name], before, entry, translation, vocabulary, edits, sharing)
    ordered = tuple(tuple(in_order(items)) for items in edits)
    places = _Places(ledger, translation, ordered, lost, added, sharing, riders)
    rows = tuple(again for row in ledger.rows for again in _with_text(row, places.of(row.setting), translation))
    return WrittenEdits(ordered, ledger._replace(rows=rows))


class _Places:
    """What rows say of the text, once all edits are known: another setting may have changed its own field of the same
    value. lost: what of a style; added: settings with a new key; riders: switch -> the number that it is.
    """

    def __init__(
        self,
        ledger: Ledger,
        translation: Translation,
        edits: tuple[tuple[Edit, ...], ...],
        lost: Mapping[str, Lost],
        added: Mapping[str, tuple[Placed, int, Edit]],
        sharing: Sharing,
        riders: Mapping[str, str],
    ) -> None:
        self.ledger, self.translation, self.edits, self.lost = ledger, translation, edits, lost
        self.sharing, self.riders = sharing, riders
        self.added = {
            name: placed._replace(line=_added_line(number, edit, edits, translation))
            for name, (placed, number, edit) in added.items()
        }
        self.starts = [[edit.start for edit in items] for items in edits]
        self.known: dict[str, Placed | None] = {}

    def of(self, name: str) -> Placed | None:
        """None for a setting that the texts have no key for."""
        if name not in self.known:
            placed = self.own(name)
            number = self.of(self.riders[name]) if name in self.riders else None
            self.known[name] = placed._replace(new_text=number.new_text) if placed and number else placed
        return self.known[name]

    def own(self, name: str) -> Placed | None:
        if self.added and name in self.ledger.derived.entries and self.sharing.writer(name) in self.added:
            return self.added[self.sharing.writer(name)]
        entry = self.ledger.base.entries.get(name)
        if entry is None:
            return None
        origin, spot = entry.origin, self.translation.spots.get(name)
        new_text = origin.text if spot is None else self.new_text(spot)
        lost = self.lost.get(name, ())
        return Placed(origin.file, origin.line, origin.key, origin.text, new_text, lost, origin.section)

    def new_text(self, spot: Spot) -> str:
        """The raw text of a setting's first line with all edits that lie in it."""
        number, line = spot.lines[0]
        edits = self.edits[number]
        at, inside = bisect_left(self.starts[number], line.start), []
        while at < len(edits) and edits[at].end <= line.end:
            edit = edits[at]
            if edit.end > edit.start:
                inside.append(Edit(edit.start - line.start, edit.end - line.start, edit.new))
            at += 1
        if len(inside) == 1:  # as mostly
            edit = inside[0]
            return f"{spot.raw[: edit.start]}{edit.new}{spot.raw[edit.end :]}"
        return edit_text(spot.raw, inside)


def _to_add(ledger: Ledger, translation: Translation) -> list[str]:
    """The settings that are added: those of one section together, and sections that the text does not have last."""
    there = {heading.name for document in translation.documents for heading in document.headings} | {None, ""}
    names = [name for name in ledger.derived.entries if name not in ledger.base.entries]
    homes = {name: binding.section for name in names if (binding := translation.key_map.binding(name))}
    order = list(dict.fromkeys(homes.values()))
    return sorted(names, key=lambda name: (homes[name] not in there, order.index(homes[name])))


def _with_text(row: Row, place: Placed | None, translation: Translation) -> list[Row]:
    """The row with its texts; one more for each further line of the same key that changes with it."""
    if place is None or row.status == "by hand" or row.file:
        return [row]
    setting, status, cause, base, derived, *_ = row
    texts = (place.old_text, place.new_text, place.file, place.line, place.key)
    first = _make(Row, (setting, status, cause, base, derived, *texts, row.notes, row.question, place.section))
    if place.lost and row.status in ("changed", "follows"):
        first = first._replace(notes=(*row.notes, *(Note("style", names) for names in place.lost)))
    spot = translation.spots.get(row.setting)
    if spot is None or place.old_text == place.new_text or row.status not in WRITING:
        return [first]
    others = [
        first._replace(
            file=translation.documents[line.document].name,
            line=line.assignment.line,
            notes=(Note("further line"),),
        )
        for line in spot.lines[1:]
    ]
    return [first, *others]


def _replace(
    spot: Spot,
    before: Entry,
    entry: Entry,
    translation: Translation,
    vocabulary: Vocabulary,
    edits: list[list[Edit]],
    sharing: Sharing,
) -> Lost:
    """Add the edits of every line of a setting; returns what the new texts cannot show of the old ones."""
    raw = spot.raw
    setting = vocabulary.settings[entry.setting]
    changes: list[Edit] = []
    lost: list[tuple[str, ...]] = []
    for tool, span in enumerate(spot.spans):
        value = _written(entry, tool)
        if value == _written(before, tool) or sharing.taken(entry.setting, tool):
            continue
        old = span.of(raw)
        if spot.constant and isinstance(value, Fraction) and is_share(old, spot.binding, setting, translation.decimal):
            value /= spot.constant
        if isinstance(value, (bool, str)):
            new = write_piece(old, value, spot.binding, setting, translation.decimal, translation.key_map.words)
        else:
            new, style = write_number(old, value, spot.binding, setting, translation.decimal)
            lost.append(style)
        changes.append(Edit(span.start, span.end, new))
    for line in spot.lines:
        start = line.assignment.start
        edits[line.document] += [Edit(start + edit.start, start + edit.end, edit.new) for edit in changes]
    return tuple(dict.fromkeys(filter(None, lost)))


def _written(entry: Entry, tool: int) -> Value:
    """What is written for a tool: a share where the text holds one of another setting, else the canonical value."""
    share = entry.shares[tool] if entry.shares else None
    return entry.values[tool] if share is None else share


def _added_line(number: int, edit: Edit, edits: Sequence[Sequence[Edit]], translation: Translation) -> int:
    """The line of an added key in the new text: insertions above it count too. edits: of each document, in order."""
    ordered = edits[number]
    before = ordered[: ordered.index(edit)]
    text = edit_text(translation.documents[number].text, ordered)
    start = edit.start + sum(len(other.new) - (other.end - other.start) for other in before)
    return line_ends(text[:start]) + line_ends(edit.new.rstrip("\r\n")) + 1


def _switch_word(translation: Translation) -> str:
    """A text of a switch of these files, so that an added one is written in the same words."""
    families = [word for family in SWITCH_WORDS[1:] for word in family]  # 1 and 0 are mostly numbers
    texts = (
        document.value(item)
        for document in translation.documents
        for item in document.assignments
        if item.end - item.start < 9
    )
    return next((text for text in texts if text.casefold() in families), "")


def _add(
    name: str, entry: Entry, translation: Translation, vocabulary: Vocabulary, edits: list[list[Edit]]
) -> tuple[Placed, int, Edit]:
    """Insert a key that the map allows to be added, into the document that has its section."""
    binding = translation.key_map.binding(name)
    assert binding is not None  # only bindings with add = true are addable
    setting, value = vocabulary.settings[name], entry.value
    if isinstance(value, Fraction):
        number = value if not binding.from_horizontal else 90 - value
        unit = binding.own_unit
        text = spell(unit.from_canonical(number) if unit else number, PLAIN, translation.decimal, binding.thousands)
    else:
        words = translation.key_map.words
        text = write_piece("", value, binding, setting, translation.decimal, words, _switch_word(translation))
    section = binding.section or ""
    home = next(
        (
            at
            for at, document in enumerate(translation.documents)
            if any(item.name == section for item in document.headings)
        ),
        0,
    )
    document = translation.documents[home]
    if binding.section is None and document.assignments:
        section = document.assignments[-1].section
    headed = any(f"[{section}]" in edit.new for edit in edits[home])
    edit = insertion(document, section, binding.key, text, headed)
    edits[home].append(edit)
    return Placed(document.name, 0, binding.key, "", text, section=section), home, edit
