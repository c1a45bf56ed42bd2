"""Assignments to slots: every place of a text that could hold one setting, with all that stands around it.

A slot is a key's whole value, or one field of a packed one. Long texts, scripts and dates are no slots.
"""

import re
from collections.abc import Iterator

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.quantity import UNITS, says_part
from profilesmith.suggest.detect_habits import Writing
from profilesmith.suggest.detect_lists import (
    ListedNumber,
    Lists,
    find_lists,
    plain_mark,
    read_part,
    shared_unit,
    split_at,
    split_value,
)
from profilesmith.suggest.key_units import parted, unit_behind
from profilesmith.suggest.key_words import LONGEST_NAME, field_names, raw_words, split_words
from profilesmith.suggest.lexicon import Lexicon, Term
from profilesmith.suggest.modes import modes_of, told_values
from profilesmith.suggest.remark_names import name_in
from profilesmith.suggest.remark_units import named_units, speaks_of_share
from profilesmith.suggest.shapes import is_shape
from profilesmith.suggest.short_value import short_value
from profilesmith.suggest.slot import Slot
from profilesmith.suggest.surroundings import Surroundings
from profilesmith.suggest.symbols import KeyReader, key_reader
from profilesmith.suggest.unit_words import units_by_word
from profilesmith.text.cuts import COLUMNS
from profilesmith.text.document import Assignment, Document

_NO_VALUE = re.compile(r"https?:|\d{4}-\d\d-\d\d|\d\d?\.\d\d?\.\d{4}|\d\d?:\d\d(?::\d\d)?$|\\n|^[GMT]\d+\b")
_QUOTIENT = re.compile(r"1/(?:[2-9]|1\d|20)")  # a share that no map can say
LONGEST_WORD = 24
COUNTED = frozenset({"layer", "count", "bead", "wall", "skirt", "top", "bottom"})  # ideas of nouns behind a count
LONGEST_CODE = 2  # letters of a symbol
LEAST_SAID = 0.35  # by a piece of a word
MANY = 3000  # keys; a text with more is no usual settings text


def find_slots(documents: tuple[Document, ...], writing: Writing, lexicon: Lexicon) -> tuple[list[Slot], Lists]:
    """All slots in reading order. Of a key that is written twice only the line that counts."""
    last: dict[tuple[int, str, str], Assignment] = {}
    for number, document in enumerate(documents):
        for item in (item for item in document.assignments if len(item.key) + len(item.section) <= LONGEST_NAME):
            place = (number, item.section, item.key)
            if place not in last or writing.duplicates != "first":
                last[place] = item
    values = [short_value(documents[number], item) for (number, _, _), item in last.items()]
    lists = find_lists(values, writing.decimal)
    surroundings = [
        Surroundings(document, writing.habits, lexicon, writing.duplicates == "first") for document in documents
    ]
    remarks = [text for around in surroundings for text in around.remark_lines.values()]
    behind = {key: surroundings[number].remark(item) for (number, _, key), item in last.items()}
    reader = key_reader(remarks, [key for _, _, key in last], lexicon, behind)
    slots: list[Slot] = []
    known: set[tuple[str, str]] = set()
    many = len(last) > MANY
    for order, ((number, section, key), item) in enumerate(last.items()):
        if (section, key) not in known and not (many and _says_nothing(section, key, lexicon)):
            known.add((section, key))
            source = _Text(number, documents[number], writing, lists, reader, surroundings[number])
            slots += _slots_of(source, item, order)
    return slots, lists


def _says_nothing(section: str, key: str, lexicon: Lexicon) -> bool:
    """Whether no word of a key or its section is known: not worth a look in a very long text."""
    return not any(
        term.ideas and not term.small for word in split_words(f"{section} {key}") for term in lexicon.word(word)
    )


class _Text(NamedTuple):
    """One document with all that its slots are read by."""

    number: int
    document: Document
    writing: Writing
    lists: Lists
    reader: KeyReader
    around: Surroundings


def _slots_of(source: _Text, item: Assignment, order: int) -> Iterator[Slot]:
    text = short_value(source.document, item)
    if not text or _NO_VALUE.search(text) or (_QUOTIENT.fullmatch(text) and "/" not in source.lists.tools):
        return
    base = _bare(source, item, order, text)
    modes = modes_of(base.told, source.reader.lexicon)
    if modes:
        yield from (base._replace(own=mode.terms, remark=(), coded=True, mode=mode) for mode in modes)
        return
    part = read_part(text, source.writing.decimal)
    if part is not None:
        if (
            part.unit is not None
            or not part.words
            or says_part(part.words)
            or _counts(part.words, source.reader.lexicon)
        ):
            yield _named(_numbered(base, part, source.reader.lexicon), item.key, source.reader)
        return
    several = split_value(text, source.writing.decimal)
    if several is not None:
        yield from _parts_of(base, *several, source)
        return
    words, separator = _first_word(text, source.lists)
    short = len(words) <= LONGEST_WORD and len(words.split()) <= 3
    if not words[0].isdigit() and (short or is_shape(words, source.reader.lexicon)):
        yield _named(base._replace(text=words, tools=separator), item.key, source.reader)


def _first_word(text: str, lists: Lists) -> tuple[str, str]:
    """The first of several tools' words and what parts them; else the whole text."""
    for separator in lists.tools:
        words = split_at(text, separator) if separator.strip() or separator == COLUMNS else []
        if len(words) == lists.many and all(word.strip().isalpha() for word in words):
            return words[0].strip(), separator
    return text, ""


def _counts(noun: str, lexicon: Lexicon) -> bool:
    """Whether a noun behind a number is of what a print is counted in."""
    return any(not COUNTED.isdisjoint(term.ideas) for term in lexicon.read(split_words(noun)))


def _numbered(base: Slot, part: ListedNumber, lexicon: Lexicon) -> Slot:
    """A slot with its number; the words behind that speak as a remark does."""
    counted = part.unit is None and bool(part.words) and not says_part(part.words)
    slot = base._replace(number=part.number, unit=part.unit, counted=counted)
    if not part.words:
        return slot
    said = part.text[part.text.index(part.words) :] if slot.counted else part.text.lstrip("+-.,0123456789 ")
    return slot._replace(
        remark=(*slot.remark, *lexicon.read(split_words(part.words))),
        remark_text=" ; ".join(filter(None, (slot.remark_text, said))),
    )


def _bare(source: _Text, item: Assignment, order: int, text: str) -> Slot:
    """A slot of a whole value, without its number and the words of its key."""
    lexicon, around = source.reader.lexicon, source.around
    remark = " ; ".join(filter(None, (around.names.get(item.key, ""), around.remark(item))))
    said, sign = around.explained.get(item.key), around.sign_of(item)
    if said is not None and (said.borrowed or not remark):
        remark = said.text
    remark = " ; ".join(filter(None, (remark, around.unit_cell(item))))
    return Slot(
        document=source.number,
        assignment=item,
        order=order,
        raw=source.document.value(item),
        text=text,
        number=None,
        unit=None,
        own=(),
        around=tuple(lexicon.read(split_words(item.section))),
        heading=around.heading(item),
        remark=tuple(lexicon.read(split_words(remark))),
        remark_text=remark,
        units=tuple(filter(None, (around.unit_signs.get(sign, ""),))),
        told=_meanings(source, item, text, remark),
        shapes=around.legends.shapes(text),
        aside=tuple(lexicon.read(split_words(said.aside))) if said is not None else (),
        sign=sign,
        block=around.block_units.get(item.line, ()),
    )


def _meanings(source: _Text, item: Assignment, value: str, remark: str) -> dict[str, str]:
    """What a value may be, as the remark behind it says, or else the one above, or a legend elsewhere."""
    for text in (remark, source.around.above(item)):
        values = told_values(value, text) if text else {}
        if values:
            return values
    return source.around.legends.of(item.key, value, remark, item.section)


def _parts_of(base: Slot, separator: str, parts: list[ListedNumber], source: _Text) -> Iterator[Slot]:
    """The slots of a value of several numbers: one of a per-tool list, or each field of a packed value."""
    key, reader = base.assignment.key, source.reader
    if plain_mark(separator) in source.lists.tools and len(parts) == source.lists.many:
        first = parts[0]
        slot = base._replace(text=first.text, number=first.number, unit=shared_unit(parts), tools=separator)
        yield _named(slot, key, reader)
    elif plain_mark(separator) in source.lists.packed:
        names = field_names(key, separator, len(parts))
        said = [part.strip() for part in base.remark_text.split(separator)] if separator.strip() else []
        remarks = said if len(said) == len(parts) else [base.remark_text] * len(parts)
        for field, part in enumerate(parts, 1):
            slot = base._replace(
                number=part.number,
                unit=part.unit,
                separator=separator,
                field=field,
                fields=len(parts),
                text=part.text,
                remark=tuple(reader.lexicon.read(split_words(remarks[field - 1]))),
                remark_text=remarks[field - 1],
            )
            yield _named(slot, names[field - 1], reader)


def _named(slot: Slot, key: str, reader: KeyReader) -> Slot:
    """The slot with the terms and units of its key."""
    key = key.removesuffix(slot.sign).strip() or key
    behind = [*slot.units] if slot.sign or reader.symbolic else unit_behind(key)
    key, aside = parted(key, reader.lexicon)
    if aside:
        words = (*slot.remark, *reader.lexicon.read(split_words(aside)))
        slot = slot._replace(remark=words, remark_text=f"{slot.remark_text} ; {aside}".strip(" ;"))
    texts = (slot.remark_text, slot.assignment.section)  # "[rates, cm/min]"
    units = dict.fromkeys([*behind, *(name for text in texts for name in units_in(text, reader.lexicon))])
    if slot.unit is None and not units:
        units = dict.fromkeys([*units_by_word(key, reader.units), *slot.block])
    share = bool(slot.remark_text) and speaks_of_share(slot.remark_text, reader.lexicon)
    own = tuple(reader.read(key))
    kinds = {slot.unit.kind} if slot.unit else {UNITS[name].kind for name in units if name in UNITS}
    slot = slot._replace(own=own, units=tuple(units), share=share, kinds=frozenset(kinds))
    if not slot.remark or any(term.firm and len(term.text) > LONGEST_CODE for term in own) or not _is_code(key, own):
        return slot
    if reader.mnemonic and any(max(term.ideas.values(), default=0.0) >= LEAST_SAID for term in own if not term.small):
        return slot
    name = tuple(reader.lexicon.read(split_words(name_in(slot.remark_text, reader.lexicon.units))))
    if not any(term.ideas and not term.small for term in name):
        return slot
    return slot._replace(own=name, remark=slot.aside, coded=True)


def _is_code(key: str, own: tuple[Term, ...]) -> bool:
    """Whether a key is no words: letters and figures of a formula or of a numbered list."""
    words = raw_words(key)
    return all(len(word) <= LONGEST_CODE or word.isdigit() for word in words) or not any(
        term.ideas or term.decoy for term in own
    )


def units_in(text: str, lexicon: Lexicon) -> list[str]:
    """The units that a remark names, in order; ``in``, ``s`` and single letters only at its head or between commas."""
    return named_units(text, lexicon.units) if text else []
