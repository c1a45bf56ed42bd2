"""One place of a text that could hold one setting, with all that stands around it."""

from collections.abc import Mapping
from fractions import Fraction
from types import MappingProxyType

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.quantity import Unit
from profilesmith.suggest.lexicon import Term
from profilesmith.suggest.modes import Mode
from profilesmith.text.document import Assignment

AROUND, HEADING = 0.75, 0.35  # how much words elsewhere count, against those of the key
REMARK = (0.4, 0.0)  # so for a remark behind a value, and what a stray word costs in it
SAID = 0.6  # what a stray word costs in a remark that explains a code: a sentence has words that say nothing


class Slot(NamedTuple):
    """One place. number: the first tool's, None for a word; unit: the one written behind it; word: folded text.

    own: the terms of the key; around: of the section; heading: of the remark above a block; remark: of the one behind
    the value. separator, field, fields: of a packed value; tools: the separator of a per-tool list.
    units: names of units that the key or the remark states; share: the remark speaks of a share of something. order:
    the assignment's place in reading order. coded: the key is a symbol or a number, and own are the words of the remark
    that explains it. told: what its values mean, as a remark says; shapes: what they mean if they are shapes of
    lines; mode: the slot is one of several things that its key chooses. counted: a noun behind the number says that
    it is a count ("2 layers"). kinds: what its unit measures, or the units that are named. sign: what stands for its
    unit, behind the key or the value, as the text explains it. aside: words that may belong to what explains its key.
    block: units that the remark at its block's head states.
    """

    document: int
    assignment: Assignment
    order: int
    raw: str
    text: str
    number: Fraction | None
    unit: Unit | None
    own: tuple[Term, ...]
    around: tuple[Term, ...]
    heading: tuple[Term, ...]
    remark: tuple[Term, ...]
    remark_text: str
    units: tuple[str, ...]
    share: bool = False
    separator: str = ""
    field: int = 0
    fields: int = 0
    tools: str = ""
    coded: bool = False
    told: Mapping[str, str] = MappingProxyType({})
    mode: Mode | None = None
    shapes: Mapping[str, str] = MappingProxyType({})
    counted: bool = False
    kinds: frozenset[str] = frozenset()
    sign: str = ""
    aside: tuple[Term, ...] = ()
    block: tuple[str, ...] = ()

    @property
    def first(self) -> str:
        """The first tool's text."""
        if not self.tools:
            return self.text
        return (self.text.split() if self.tools == " " else self.text.split(self.tools))[0].strip()

    @property
    def word(self) -> str:
        return "" if self.number is not None else self.text

    @property
    def switch(self) -> bool:
        """Whether a remark explains a key whose value may turn something on or off."""
        return self.coded and not self.units and (self.number is None or self.text in ("0", "1"))

    @property
    def place(self) -> tuple[str, str, int]:
        """What a binding says of it."""
        return (self.assignment.section, self.assignment.key, self.field)

    @property
    def words(self) -> tuple[tuple[str, tuple[Term, ...], float, float], ...]:
        """Where words stand, the words, how much they count against those of a key, and what a stray one costs."""
        share, stray = REMARK
        return (
            ("remark" if self.coded else "key", self.own, 1.0, SAID if self.coded else 1.0),
            ("section", self.around, AROUND, 0.4),
            ("heading", self.heading, HEADING, 0.0),
            ("remark", self.remark, share, stray),
        )

    @property
    def name(self) -> str:
        """The key as a person would point at it."""
        section, key, _ = self.place
        head = f"[{section}] {key}" if section else key
        return f"{head}, field {self.field}" if self.field else head
