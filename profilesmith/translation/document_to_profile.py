"""Documents and a key map to a Profile, and a Translation that remembers where every value stands."""

from collections.abc import Mapping
from fractions import Fraction
from types import MappingProxyType
from typing import NamedTuple

from profilesmith.foundation.problem import Problem
from profilesmith.profile.absent import Absent
from profilesmith.profile.profile import Entry, Grid, Origin, Profile
from profilesmith.text.document import Document
from profilesmith.translation.addable import addable
from profilesmith.translation.couplings import coupling_of, one_key, unowned, writable
from profilesmith.translation.find_keys import KeyIndex, KeyLine
from profilesmith.translation.key_map import Binding, KeyMap
from profilesmith.translation.other_unit import other_unit
from profilesmith.translation.pieces import Span
from profilesmith.translation.read_value import DecimalMark, find_decimal, read_value
from profilesmith.translation.reading_problems import dividing, meeting, missing, only_proposed, wrong_map
from profilesmith.translation.spelling import Reading, read_piece, unit_of
from profilesmith.translation.spot import Spot
from profilesmith.vocabulary.setting import Value, Vocabulary

Readings = dict[tuple[DecimalMark, str, str], tuple[tuple[Span, ...], tuple[Reading, ...]]]
"""By decimal mark, setting and raw text: what was read before. For one map only; many texts say the same."""


class Translation(NamedTuple):
    """What a map makes of some documents.

    unmapped: lines whose key no binding knows, in order. decimal: the decimal mark in force.
    readings: what each raw text was read as, for reading another text with the same map.
    """

    documents: tuple[Document, ...]
    key_map: KeyMap
    profile: Profile
    spots: Mapping[str, Spot]
    unmapped: tuple[KeyLine, ...]
    decimal: str
    problems: tuple[Problem, ...]
    readings: Readings


def translate(
    documents: tuple[Document, ...],
    key_map: KeyMap,
    vocabulary: Vocabulary,
    readings: Readings | None = None,
    before: Mapping[str, Entry] = MappingProxyType({}),
) -> Translation:
    """Read every binding. All problems of all files are collected.

    readings: those of this map so far; new ones are added. before: the entries of an earlier text of the same files;
    one whose line says the very same is taken over.
    """
    work = _Work(documents, key_map, vocabulary, {} if readings is None else readings, before)
    for binding in key_map.bindings:
        work.locate(binding)
    for setting in work.spots:
        work.evaluate(setting)
    entries = {name: work.entries[name] for name in vocabulary.settings if name in work.entries}
    problems = [
        *work.problems,
        *meeting(work.spots, key_map, documents),
        *dividing(work.spots, key_map, work.index, work.decimal),
    ]
    if not work.spots and not problems and any(document.assignments for document in documents):
        problems.append(wrong_map(documents, key_map, work.index))
    added, absent = addable(key_map, work.spots, vocabulary), only_proposed(key_map) | work.absent
    profile = Profile(entries, added, absent, tuple(one_key(sharers) for sharers in key_map.sharers()))
    return Translation(
        documents=documents,
        key_map=key_map,
        profile=profile,
        spots=work.spots,
        unmapped=work.index.others((line for spot in work.spots.values() for line in spot.lines), work.references),
        decimal=work.decimal,
        problems=tuple(dict.fromkeys(problems)),
        readings=work.readings,
    )


class _Work:
    """Bindings are located first; values are then read, the reference of a relative one before itself."""

    def __init__(
        self,
        documents: tuple[Document, ...],
        key_map: KeyMap,
        vocabulary: Vocabulary,
        readings: Readings,
        before: Mapping[str, Entry],
    ) -> None:
        self.documents, self.key_map, self.vocabulary = documents, key_map, vocabulary
        self.readings, self.before = readings, before
        self.sharers = {item.setting: sharers for sharers in key_map.sharers() for item in sharers}
        self.switches = [binding for binding in key_map.bindings if binding.on_when]
        self.index = KeyIndex(documents)
        self.mark = find_decimal(self.index, key_map)
        self.decimal = self.mark.mark
        self.spots: dict[str, Spot] = {}
        self.entries: dict[str, Entry] = {}
        self.absent: dict[str, Absent] = {}
        self.problems: list[Problem] = []
        self.references: set[str] = set()
        self.odd: set[str] = set()

    def locate(self, binding: Binding) -> None:
        lines, problems = self.index.chosen(binding, self.key_map.duplicates)
        self.problems += problems
        if not lines:
            if not problems:
                self.absent[binding.setting] = missing(binding, self.index)
            return
        raw = self.index.value(lines[0], binding)
        spans, _ = self.read(binding, raw)
        if not spans:
            self.absent[binding.setting] = Absent("key blank", (binding.key, str(self.index.place(lines[0]))))
            if binding.split and raw.strip():
                self.complain("field", lines[0], binding, f"{raw!r} has no field {binding.field}")
        self.spots[binding.setting] = Spot(binding, tuple(lines), spans, self.constant(binding), raw)

    def read(self, binding: Binding, raw: str) -> tuple[tuple[Span, ...], tuple[Reading, ...]]:
        """The pieces of a raw text and what each says."""
        known = self.readings.get((self.mark, binding.setting, raw))
        if known is None:
            known = read_value(raw, binding, self.vocabulary.settings[binding.setting], self.key_map, self.mark)
            self.readings[self.mark, binding.setting, raw] = known
        return known

    def constant(self, binding: Binding) -> Fraction | None:
        """The number of the key that a value is relative to, when that is no setting."""
        if not binding.relative_key:
            return None
        self.references.add(binding.relative_key)
        lines = self.index.find(binding.relative_key, binding.section) or self.index.find(binding.relative_key, None)
        plain = Binding(setting=binding.setting, kind=binding.kind, key=binding.relative_key, place=binding.place)
        setting = self.vocabulary.settings[binding.setting]
        texts = {self.index.text(line) for line in lines}
        if len(texts) > 1 and not self.key_map.duplicates:
            first, second = (line.assignment.line for line in lines[:2])
            self.complain("two-lines", lines[1], plain, f"lines {first} and {second} say different things")
            return None
        for line in lines[-1:] if self.key_map.duplicates == "last" else lines[:1]:
            reading = read_piece(self.index.value(line, plain).strip("\"' "), plain, setting, self.decimal, ())
            if isinstance(reading.value, Fraction) and not reading.error:
                return reading.value
            self.complain("no-number", line, plain, reading.error)
        return None

    def complain(self, code: str, line: KeyLine, binding: Binding, reason: str, more: str = "") -> None:
        message = f"{binding.key!r} ({binding.setting}): {reason}{'?' if reason.endswith('right') else '.'}"
        hint = f"Correct the value, or the binding at {binding.place}{more}."
        problem = Problem(code, message, self.index.place(line), hint)
        self.problems.append(problem)

    def evaluate(self, name: str) -> Entry | None:
        """The entry of a located setting; None when it cannot be read."""
        if name in self.entries or name not in self.spots:
            return self.entries.get(name)
        spot, setting = self.spots[name], self.vocabulary.settings[name]
        raw = spot.raw
        known = self.before.get(name)
        if known is not None and self.same(known, spot, raw):
            self.entries[name] = known
            return known
        _, readings = self.read(spot.binding, raw)
        for reading in readings:
            if reading.error:
                self.complain("no-value", spot.lines[0], spot.binding, reading.error)
        if not readings or any(reading.error for reading in readings):
            return None
        resolved = [self.resolve(spot, reading, tool) for tool, reading in enumerate(readings)]
        if any(value is None for value, _, _ in resolved):
            return None
        self.entries[name] = entry = self.entry(
            spot, raw, readings, [(v, g, s) for v, g, s in resolved if v is not None]
        )
        for value in dict.fromkeys(entry.values):
            reason = setting.implausible(value)
            # A share of an implausible value is told once, at that value.
            if reason and spot.binding.relative_to not in self.odd:
                self.odd.add(name)
                question = "" if setting.kind == "count" else ": is the unit right"
                self.complain(
                    "implausible",
                    spot.lines[0],
                    spot.binding,
                    f"{raw!r} reads as {reason}{question}",
                    other_unit(raw, setting),
                )
        return entry

    def same(self, known: Entry, spot: Spot, raw: str) -> bool:
        """Whether an entry read before stands in the same line and says the same, whatever else has changed."""
        line, origin = spot.lines[0], known.origin
        alone = not known.relative_to and not spot.binding.relative_key
        return alone and origin.text == raw and origin.line == line.assignment.line and origin.document == line.document

    def entry(
        self, spot: Spot, raw: str, readings: tuple[Reading, ...], resolved: list[tuple[Value, Grid, Fraction | None]]
    ) -> Entry:
        line, binding = spot.lines[0], spot.binding
        name, written = self.documents[line.document].name, line.assignment
        origin = Origin(name, written.line, binding.key, raw, line.document, written.section)
        setting = self.vocabulary.settings[binding.setting]
        relative = binding.relative_to if any(share is not None for _, _, share in resolved) else ""
        own = [reading.note for reading in readings]
        if binding.setting in self.sharers:
            own = unowned(self.sharers[binding.setting], binding, [span.of(raw) for span in spot.spans])
        notes = [*own, self.index.below(line, raw)]
        return Entry(
            setting=binding.setting,
            values=tuple(value for value, _, _ in resolved),
            origin=origin,
            grids=tuple(grid for _, grid, _ in resolved),
            relative_to=relative,
            shares=tuple(share for _, _, share in resolved) if relative else (),
            held=bool(relative) and not binding.follows,
            note="; ".join(dict.fromkeys(filter(None, notes))),
            writable=writable(binding, setting, self.key_map),
            unit=unit_of(binding, setting, [span.of(raw) for span in spot.spans]),
            coupling=coupling_of(binding, self.switches, setting, self.decimal),
        )

    def resolve(self, spot: Spot, reading: Reading, tool: int) -> tuple[Value | None, Grid, Fraction | None]:
        """A reading as canonical value, its grid, and its share where it is relative to a setting."""
        if not reading.share or not isinstance(reading.value, Fraction):
            return reading.value, reading.grid, None
        if spot.binding.relative_key:
            if spot.constant is None:
                self.absent[spot.binding.setting] = Absent("key has no value", (spot.binding.relative_key,))
                return None, reading.grid, None
            if spot.constant == 0:
                self.absent[spot.binding.setting] = Absent("key is zero", (spot.binding.relative_key,))
                return None, reading.grid, None
            return reading.value * spot.constant, reading.grid.scaled(spot.constant), None
        reference = self.evaluate(spot.binding.relative_to)
        if reference is None:
            self.absent[spot.binding.setting] = Absent("reference has no value", (spot.binding.relative_to,))
            return None, reading.grid, None
        whole = reference.values[tool] if tool < len(reference.values) else reference.values[0]
        return (reading.value * whole if isinstance(whole, Fraction) else None), reading.grid, reading.value
