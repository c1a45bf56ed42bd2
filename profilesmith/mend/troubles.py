"""Troubles, their causes, looks that tell causes apart, and doings that are no setting: what ``troubles.toml``
holds.
"""

from collections.abc import Mapping
from fractions import Fraction
from types import MappingProxyType
from typing import Literal

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.recipe.recipe import Clause
from profilesmith.vocabulary.setting import Value

Usual = Literal["often", "usual", "rare"]
Direction = Literal["up", "down", ""]


class Sign(NamedTuple):
    """One look. ask: a question whose answer is yes or no."""

    name: str
    ask: str


class Doing(NamedTuple):
    """What a maker does to spool or machine."""

    name: str
    how: str
    caution: str = ""
    usual: Usual = "usual"


class TroubleCause(NamedTuple):
    """A cause and what mends it: ``do``, or a setting that is moved by ``step`` (at most ``most`` from where it began)
    or set.

    step, most: in the setting's canonical unit, always above 0; to: of a switch or choice. speaks_for, speaks_against:
    signs.
    along: settings that go along by the same share. when: facts that must hold; one that is not known keeps the cause.
    """

    what: str
    why: str
    source: str
    do: str = ""
    setting: str = ""
    along: tuple[str, ...] = ()
    direction: Direction = ""
    step: Fraction = Fraction(0)
    most: Fraction = Fraction(0)
    to: Value | None = None
    speaks_for: tuple[str, ...] = ()
    speaks_against: tuple[str, ...] = ()
    when: tuple[Clause, ...] = ()
    costs: str = ""
    place: Place = Place()

    @property
    def sign(self) -> int:
        """+1 where the setting goes up, -1 where it goes down; 0 for what is no step."""
        return {"up": 1, "down": -1, "": 0}[self.direction]


class Trouble(NamedTuple):
    """causes: the likeliest first. words: language -> what people call it. judged: evidence's word for it, or ""."""

    name: str
    looks: str
    causes: tuple[TroubleCause, ...]
    words: Mapping[str, tuple[str, ...]] = MappingProxyType({})
    judged: str = ""
    place: Place = Place()


class Knowledge(NamedTuple):
    """All of it, by name, in the files' order."""

    troubles: Mapping[str, Trouble]
    signs: Mapping[str, Sign]
    doings: Mapping[str, Doing]
