"""The profile of changed texts of the same files: what says the very same in the same line is taken over."""

from collections.abc import Mapping, Sequence
from operator import itemgetter

from profilesmith.profile.profile import Entry, Profile
from profilesmith.text.document import Assignment, Document
from profilesmith.translation.document_to_profile import Translating, Translation
from profilesmith.translation.find_keys import KeyLine, value_text
from profilesmith.translation.key_map import Binding

where = itemgetter(slice(3))
"""An assignment's line, section and key."""


def read_again(documents: tuple[Document, ...], before: Translation) -> Profile:
    """The profile, and no word of what is wrong with the texts."""
    now = _lines_now(before.documents, documents)
    if now is None:
        return Translating(documents, before.readings, before.profile.entries).profile()
    return _Rereading(documents, before, now).profile()


def _lines_now(before: Sequence[Document], after: Sequence[Document]) -> list[Mapping[int, Assignment]] | None:
    """Of each text its assignments as they are now, by where their values started; None where a key came, went or
    moved.
    """
    now: list[Mapping[int, Assignment]] = []
    for old, new in zip(before, after, strict=True):
        if [*map(where, old.assignments)] != [*map(where, new.assignments)]:
            return None
        now.append({was.start: item for was, item in zip(old.assignments, new.assignments, strict=True)})
    return now


class _Rereading(Translating):
    """Where every key stands in its line of before: those of bindings need not be looked for."""

    def __init__(
        self, documents: tuple[Document, ...], before: Translation, now: Sequence[Mapping[int, Assignment]]
    ) -> None:
        super().__init__(documents, before.readings, before.profile.entries)
        self.earlier, self.now = before, now

    def locate(self, binding: Binding) -> None:
        setting = binding.setting
        spot = self.earlier.spots.get(setting)
        if spot is None or len(spot.lines) > 1 or binding.relative_key:
            super().locate(binding)
            return
        number, was = spot.lines[0]
        line = self.now[number][was.start]
        raw, known = value_text(self.documents[number], line, binding), self.before.get(setting)
        if raw == spot.raw and known is not None and not known.relative_to:
            self.entries[setting], self.spots[setting] = known, spot
        else:
            self.stands(binding, (KeyLine(number, line),), raw)

    def evaluate(self, name: str) -> Entry | None:
        """A share that stands as it stood, of a whole that was taken over, is taken over, too."""
        if name not in self.entries and name in self.spots:
            spot, known = self.spots[name], self.before.get(name)
            if known is not None and known.relative_to and known.origin.text == spot.raw:
                whole = self.evaluate(known.relative_to)
                if whole is not None and whole is self.before.get(known.relative_to):
                    self.entries[name] = known
                    return known
        return super().evaluate(name)
