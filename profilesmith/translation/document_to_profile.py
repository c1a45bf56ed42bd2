"""Documents and a key map to a Profile, and a Translation that remembers where every value stands."""

from collections.abc import Mapping
from fractions import Fraction

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.problem import Problem
from profilesmith.profile.profile import Absent, Entry, Grid, Origin, Profile
from profilesmith.text.document import Document
from profilesmith.translation.find_keys import KeyIndex, KeyLine
from profilesmith.translation.key_map import Binding, KeyMap
from profilesmith.translation.pieces import find_decimal
from profilesmith.translation.reading_problems import dividing, meeting, missing, only_proposed, wrong_map
from profilesmith.translation.readings import RawValue, Readings
from profilesmith.translation.spelling import Reading, read_piece
from profilesmith.translation.spot import Spot, addable
from profilesmith.vocabulary.setting import Value, Vocabulary

_make = tuple.__new__  # a third of the time of a NamedTuple's own


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
) -> Translation:
    """Read every binding. All problems of all files are collected.

    readings: those of this map so far; new ones are added.
    """
    work = Translating(documents, readings or Readings(key_map, vocabulary), {})
    profile = work.profile()
    problems = [
        *work.problems,
        *meeting(work.spots, key_map, documents, work.readings.sharers),
        *dividing(work.spots, key_map, work.index, work.decimal),
    ]
    if not work.spots and not problems and any(document.assignments for document in documents):
        problems.append(wrong_map(documents, key_map, work.index))
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


class Translating:
    """Bindings are located first; values are then read, the reference of a relative one before itself."""

    def __init__(self, documents: tuple[Document, ...], readings: Readings, before: Mapping[str, Entry]) -> None:
        self.documents, self.readings, self.before = documents, readings, before
        self.key_map, self.vocabulary = readings.key_map, readings.vocabulary
        self.index = KeyIndex(documents)
        self.mark = find_decimal(self.index, self.key_map)
        self.decimal = self.mark.mark
        self.spots: dict[str, Spot] = {}
        self.said: dict[str, RawValue] = {}
        self.entries: dict[str, Entry] = {}
        self.absent: dict[str, Absent] = {}
        self.problems: list[Problem] = []
        self.references: set[str] = set()
        self.odd: set[str] = set()

    def profile(self) -> Profile:
        """All values, in the order of the vocabulary."""
        for binding in self.key_map.bindings:
            self.locate(binding)
        for setting in self.spots:
            self.evaluate(setting)
        entries = {name: self.entries[name] for name in self.vocabulary.settings if name in self.entries}
        added, absent = addable(self.key_map, self.spots, self.vocabulary), only_proposed(self.key_map) | self.absent
        return Profile(entries, added, absent, self.readings.one_keys)

    def locate(self, binding: Binding) -> None:
        lines, problems = self.index.chosen(binding, self.key_map.duplicates)
        self.problems += problems
        if lines:
            self.stands(binding, tuple(lines), self.index.value(lines[0], binding))
        elif not problems:
            self.absent[binding.setting] = missing(binding, self.index)

    def stands(self, binding: Binding, lines: tuple[KeyLine, ...], raw: str) -> None:
        """A binding's key was found. raw: what it reads of its first line."""
        said = self.said[binding.setting] = self.readings.of(self.mark, binding, raw)
        if not said.spans:
            self.absent[binding.setting] = Absent("key blank", (binding.key, str(self.index.place(lines[0]))))
            if binding.split and raw.strip():
                self.complain("field", lines[0], binding, f"{raw!r} has no field {binding.field}.")
        constant = self.constant(binding) if binding.relative_key else None
        self.spots[binding.setting] = _make(Spot, (binding, lines, said.spans, constant, raw))

    def constant(self, binding: Binding) -> Fraction | None:
        """The number of the key that a value is relative to, where that is no setting."""
        self.references.add(binding.relative_key)
        lines = self.index.find(binding.relative_key, binding.section) or self.index.find(binding.relative_key, None)
        plain = Binding(setting=binding.setting, kind=binding.kind, key=binding.relative_key, place=binding.place)
        setting = self.vocabulary.settings[binding.setting]
        texts = {self.index.text(line) for line in lines}
        if len(texts) > 1 and not self.key_map.duplicates:
            first, second = (line.assignment.line for line in lines[:2])
            self.complain("two-lines", lines[1], plain, f"lines {first} and {second} say different things.")
            return None
        for line in lines[-1:] if self.key_map.duplicates == "last" else lines[:1]:
            reading = read_piece(self.index.value(line, plain).strip("\"' "), plain, setting, self.decimal, ())
            if isinstance(reading.value, Fraction) and not reading.error:
                return reading.value
            self.complain("no-number", line, plain, f"{reading.error}.")
        return None

    def complain(self, code: str, line: KeyLine, binding: Binding, reason: str, more: str = "") -> None:
        message = f"{binding.key!r} ({binding.setting}): {reason}"
        hint = f"Correct the value, or the binding at {binding.place}{more}."
        problem = Problem(code, message, self.index.place(line), hint)
        self.problems.append(problem)

    def evaluate(self, name: str) -> Entry | None:
        """The entry of a located setting; None when it cannot be read."""
        if name in self.entries or name not in self.spots:
            return self.entries.get(name)
        spot = self.spots[name]
        known = self.before.get(name)
        if known is not None and self.same(known, spot, spot.raw):
            self.entries[name] = known
            return known
        said = self.said[name]
        entry, odd = said.entry, said.odd
        if entry is None:
            for reading in said.readings:
                if reading.error:
                    self.complain("no-value", spot.lines[0], spot.binding, f"{reading.error}.")
            return None
        if said.has_shares:
            entry, odd = self.of_whole(entry, spot, said.readings)
            if entry is None:
                return None
        self.entries[name] = entry = self.placed(entry, spot)
        for reason in odd:
            self.implausible(spot, reason)
        return entry

    def implausible(self, spot: Spot, reason: str) -> None:
        """A share of an implausible value is told once, at that value."""
        if spot.binding.relative_to in self.odd:
            return
        from profilesmith.translation.other_unit import other_unit_hint  # only when something is wrong

        setting = self.vocabulary.settings[spot.binding.setting]
        self.odd.add(setting.id)
        error = f"{spot.raw!r} reads as {reason}"
        error += "." if setting.kind == "count" else ": is the unit right?"
        self.complain("implausible", spot.lines[0], spot.binding, error, other_unit_hint(spot.raw, setting))

    def same(self, known: Entry, spot: Spot, raw: str) -> bool:
        """Whether an entry read before stands in the same line and says the same, whatever else has changed."""
        (document, line), origin = spot.lines[0], known.origin
        alone = not known.relative_to and not spot.binding.relative_key
        there = (document, line.line, line.section, raw)
        return alone and there == (origin.document, origin.line, origin.section, origin.text)

    def placed(self, entry: Entry, spot: Spot) -> Entry:
        """An entry with where it stands, and what is to be said of what stands below it."""
        document, (number, section, _, start, end) = spot.lines[0]
        name, raw = self.documents[document].name, spot.raw
        origin = _make(Origin, (name, number, spot.binding.key, raw, document, section))
        below = self.index.below(spot.lines[0], raw) if start + len(raw) < end else ()
        if not below:
            return entry.at(origin)
        return entry._replace(origin=origin, departures=(*entry.departures, *below))

    def of_whole(self, entry: Entry, spot: Spot, readings: tuple[Reading, ...]) -> tuple[Entry | None, tuple[str, ...]]:
        """An entry some of whose values are shares, with what these come to; and why values are implausible."""
        resolved = [self.resolve(spot, reading, tool) for tool, reading in enumerate(readings)]
        values = tuple(value for value, _, _ in resolved if value is not None)
        if len(values) < len(resolved):
            return None, ()
        shares = tuple(share for _, _, share in resolved)
        relative = spot.binding.relative_to if any(share is not None for share in shares) else ""
        grids, held = tuple(grid for _, grid, _ in resolved), bool(relative) and not spot.binding.follows
        entry = _make(
            Entry, (entry.setting, values, entry.origin, grids, relative, shares if relative else (), held, *entry[7:])
        )
        return entry, self.vocabulary.settings[entry.setting].oddities(values)

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
