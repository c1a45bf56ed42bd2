"""A proposal: one binding as a map would hold it, how certain it is, and why. Frozen data."""

from collections.abc import Mapping
from typing import Self

from profilesmith.foundation.named_tuple import NamedTuple

SURE, CHECK = "sure", "check"

Entry = str | int | bool | list[str] | dict[str, str]


class Alternative(NamedTuple):
    """Another key that could hold the setting. text: its value as written; slot: its number in the reading."""

    name: str
    text: str
    line: int
    slot: int = -1


class Proposal(NamedTuple):
    """binding: the entries of its ``[[binding]]``, in order. value: the value in canonical units, for people.

    doubts: what a person should look at; () for a sure one. reasons: what speaks for it.
    founded: words that a language knows say all of the setting, and more speaks for it than for no setting at all.
    """

    setting: str
    section: str
    key: str
    binding: Mapping[str, Entry]
    certainty: str
    reasons: tuple[str, ...]
    doubts: tuple[str, ...]
    alternatives: tuple[Alternative, ...]
    file: str
    line: int
    text: str
    value: str = ""
    founded: bool = False

    @property
    def place(self) -> tuple[str, str, int]:
        """The section, key and field that it binds."""
        field = self.binding.get("field", 0)
        return (self.section, self.key, field if isinstance(field, int) else 0)


class Suggestion(NamedTuple):
    """Everything that was found. text: the entries of ``[text]``; missing: settings without a key.

    leftover: keys that nothing is proposed for, as ``[section] key``; left_alone: keys that a map says are no settings.
    """

    name: str
    language: str
    text: Mapping[str, Entry]
    proposals: tuple[Proposal, ...]
    missing: tuple[str, ...]
    leftover: tuple[str, ...]
    left_alone: tuple[str, ...] = ()

    def without(self, settings: set[str]) -> Self:
        """The suggestion less some proposals, which are then missing."""
        kept = tuple(item for item in self.proposals if item.setting not in settings)
        return self._replace(proposals=kept, missing=(*self.missing, *sorted(settings)))

    def of(self, certainty: str) -> tuple[Proposal, ...]:
        return tuple(item for item in self.proposals if item.certainty == certainty)
