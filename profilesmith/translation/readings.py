"""What a map says by itself, and what raw texts read through it have said so far: asked once for many texts."""

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.profile.profile import NOWHERE, Entry
from profilesmith.text.second_reader import SecondReader
from profilesmith.translation.couplings import coupling_of, one_key, unowned, writable
from profilesmith.translation.key_map import Binding, KeyMap
from profilesmith.translation.pieces import DecimalMark, Span, read_value
from profilesmith.translation.spelling import Reading, unit_of
from profilesmith.vocabulary.setting import Vocabulary

MOST = 100_000


class RawValue(NamedTuple):
    """What a raw text says by itself, whatever stands around it.

    entry: without its place, and with shares as they are read; None where it cannot be read. odd: why values are
    implausible.
    """

    spans: tuple[Span, ...]
    readings: tuple[Reading, ...]
    entry: Entry | None
    odd: tuple[str, ...]
    has_shares: bool = False


class Readings:
    """For one map and one vocabulary. A raw text reads by its binding and the decimal mark in force, no more."""

    def __init__(self, key_map: KeyMap, vocabulary: Vocabulary) -> None:
        self.key_map, self.vocabulary = key_map, vocabulary
        together = key_map.sharers()
        self.sharers = {item.setting: sharers for sharers in together for item in sharers}
        self.one_keys = tuple(one_key(sharers) for sharers in together)
        self.switches = [binding for binding in key_map.bindings if binding.on_when]
        self._switch_of: dict[str, Binding | None] = {}
        self._known: dict[tuple[str, bool, str, str], RawValue] = {}
        self._second_readers: dict[str, SecondReader] = {}

    def of(self, mark: DecimalMark, binding: Binding, raw: str) -> RawValue:
        """What a raw text says."""
        asked = (*mark, binding.setting, raw)
        known = self._known.get(asked)
        if known is None:
            if len(self._known) >= MOST:
                self._known.clear()
            known = self._known[asked] = self._read(mark, binding, raw)
        return known

    def switch_of(self, number: Binding) -> Binding | None:
        """The switch that is read off a number."""
        name = number.setting
        if name not in self._switch_of:
            self._switch_of[name] = next((switch for switch in self.switches if switch.rides(number)), None)
        return self._switch_of[name]

    def second_reader(self, delimiter: str) -> SecondReader:
        """The one for texts of the map's layout. delimiter: the one found where the map names none."""
        if delimiter not in self._second_readers:
            self._second_readers[delimiter] = SecondReader(delimiter, self.key_map.habits)
        return self._second_readers[delimiter]

    def _read(self, mark: DecimalMark, binding: Binding, raw: str) -> RawValue:
        setting = self.vocabulary.settings[binding.setting]
        spans, readings = read_value(raw, binding, setting, self.key_map, mark)
        if not readings or any(reading.error for reading in readings):
            return RawValue(spans, readings, None, ())
        texts, shared = [span.of(raw) for span in spans], self.sharers.get(binding.setting)
        departures = (
            unowned(shared, binding, texts) if shared else tuple(part for item in readings for part in item.departures)
        )
        entry = Entry(
            setting=binding.setting,
            values=tuple(reading.value for reading in readings),
            origin=NOWHERE,
            grids=tuple(reading.grid for reading in readings),
            departures=tuple(dict.fromkeys(departures)) if departures else (),
            writable=writable(binding, setting, self.key_map),
            unit=unit_of(binding, setting, texts),
            coupling=coupling_of(binding, self.switch_of(binding), setting, mark.mark),
        )
        has_shares = any(reading.share for reading in readings)
        return RawValue(spans, readings, entry, setting.oddities(entry.values), has_shares)
