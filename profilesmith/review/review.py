"""Review: a ledger arranged for a person. Every rendering shows these rows and no others."""

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any, Literal, Self

from profilesmith import ledger
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.problem import Problem
from profilesmith.ledger import Asked, Line, Row
from profilesmith.ledger.file import File
from profilesmith.ledger.judgement import Figures, Finding
from profilesmith.ledger.ledger import Tools
from profilesmith.ledger.line_edit import ValueEdited
from profilesmith.ledger.write import file_json

Kind = Literal["derivation", "comparison", "check"]


class Reason(NamedTuple):
    """One rule's part in a change. cause: recipe, version and rule; note: what overruled or held it.

    asked: what ``demand`` says, as data. is_slip: the map has a key for it that the text has not.
    """

    cause: str
    demand: str
    why: str
    source: str
    status: str
    note: str = ""
    asked: tuple[Asked, ...] = ()
    is_slip: bool = False
    recipe: str = ""
    rule: int = 0


class ValueChange(NamedTuple):
    """One setting. base, derived: for people; relative: ``-50 %`` or ""; reasons: the deciding ones first.

    command: it is a machine command of a start block, which repeats the setting; base and derived are its texts.
    is_slip: the map has a key for it that the text has not. proposed: the place of the map's block for it that nobody
    has accepted yet.
    recipe_value: of a setting that a hand edited since, what the recipes made of it; "" for any other. Then ``derived``
    is what the file holds now, and breaks the rules that it breaks (``part-soft 1.0.0, rule 2: at most 2``).
    follows: its own text was not touched: it moved along with what a hand edited.
    """

    setting: str
    words: str
    status: str
    base: str
    derived: str
    relative: str = ""
    reasons: tuple[Reason, ...] = ()
    file: str = ""
    line: int = 0
    key: str = ""
    old_text: str = ""
    new_text: str = ""
    note: str = ""
    command: bool = False
    is_slip: bool = False
    proposed: str = ""
    recipe_value: str = ""
    breaks: tuple[str, ...] = ()
    follows: bool = False


class AreaChanges(NamedTuple):
    """The changes of one area, such as Supports."""

    title: str
    changes: tuple[ValueChange, ...]


class OpenQuestion(NamedTuple):
    """What is not known: the question, and the rules that wait for it. about: the question as data, for a door."""

    ask: str
    settings: tuple[str, ...]
    causes: tuple[str, ...]
    about: ledger.Question | None = None


class Assumed(NamedTuple):
    """An input that nobody answered, with the default that was used, in words. A door says how it is answered."""

    recipe: str
    name: str
    value: str

    def __str__(self) -> str:
        return f"{self.recipe}.{self.name} = {self.value}"


class LeftCommand(NamedTuple):
    """A machine command that contradicts the derived profile. can_follow: it can be changed along; a door says how.

    heats: to another temperature than the profile wants; else it is a factor over all.
    place: ``base.settings:152``; command: ``M104``; says: what it does and what the profile says.
    """

    says: str
    can_follow: bool = False
    place: str = ""
    command: str = ""
    heats: bool = False

    def __str__(self) -> str:
        says = f"{self.says}: edit it yourself" if self.heats and not self.can_follow else self.says
        return f"{self.place}: {self.command} {says}" if self.place else says


class Standing(NamedTuple):
    """A value as it stands. values, before: in words, one for each tool, one alone where all have the same; () for
    none.

    changed: it is not what it was before. edited: by a hand, since, or (follows) moved along with what a hand edited;
    then recipe_value is what the recipes made of it. key, text: how the file writes it, "" where that is not known.
    """

    setting: str
    area: str
    values: tuple[str, ...]
    before: tuple[str, ...] = ()
    changed: bool = False
    key: str = ""
    text: str = ""
    file: str = ""
    line: int = 0
    edited: bool = False
    follows: bool = False
    recipe_value: tuple[str, ...] = ()


class NoValue(NamedTuple):
    """A setting that the map reads and that the file holds no value of, and why."""

    setting: str
    why: str


class StandingValues(NamedTuple):
    """The values of a review: those that stand, and the settings that the map reads and that have none."""

    standing: tuple[Standing, ...] = ()
    no_value: tuple[NoValue, ...] = ()


class Review(NamedTuple):
    """All that is shown. conflicts stop the export; literals are contradicting machine commands.

    held: settings whose share was rewritten so that they keep their values.
    kept: settings whose rules were already met; idle: rules that do not apply here, with their condition.
    unmapped: lines whose key the map does not know. notes: how the text was read.
    kind: a derivation, two profiles side by side, or one profile judged. file: the machine-readable whole.
    consequences: what the checks found, worst first. caution_sources: a caution's text -> its source, where it has one.
    rows, figures: of ledger and judgement, to draw from.
    edits: what became of each edit that a hand made of an earlier derivation.
    off: the switches that are off in the end. once: the recipes that scale or shift.
    texts: the base files; map_name: the map that read them; outputs: the derived files, "" where none was named.
    road: what was mended after prints, and what came of it.
    values: every value that the map reads, as the file holds it now (of a conflict: the base's); or what works them out
    where a whole sheet shows them.
    tools: of a text with several, what was done to which of them.
    others: of two texts put side by side, what differs in keys that the map does not know.
    from_ledger: the file could not be read again, so that ``values`` are what was written then.
    """

    title: str
    subject: str
    recipes: tuple[str, ...]
    groups: tuple[AreaChanges, ...]
    by_hand: tuple[ValueChange, ...]
    questions: tuple[OpenQuestion, ...]
    kept: tuple[ValueChange, ...]
    idle: tuple[Reason, ...]
    overruled: tuple[ValueChange, ...]
    conflicts: tuple[Problem, ...]
    literals: tuple[LeftCommand, ...]
    unmapped: tuple[Line, ...]
    unread: tuple[Line, ...]
    notes: tuple[str, ...]
    assumed: tuple[Assumed, ...]
    cautions: tuple[str, ...]
    kind: Kind = "derivation"
    file: File | None = None
    rows: tuple[Row, ...] = ()
    figures: Figures = ()
    outputs: tuple[str, ...] = ()
    consequences: tuple[Finding, ...] = ()
    caution_sources: Mapping[str, str] = MappingProxyType({})
    edits: tuple[str, ...] = ()
    held: tuple[ValueChange, ...] = ()
    off: tuple[str, ...] = ()
    once: tuple[str, ...] = ()
    texts: tuple[str, ...] = ()
    map_name: str = ""
    road: tuple[str, ...] = ()
    values: StandingValues | Callable[[], StandingValues] = StandingValues()
    from_ledger: bool = False
    tools: Tools | None = None
    others: tuple[ValueEdited, ...] = ()

    @property
    def data(self) -> dict[str, Any]:
        """The whole as JSON data."""
        return file_json(self.file) if self.file else {}

    def with_values(self) -> Self:
        """The same with its values worked out."""
        return self._replace(values=self.values()) if callable(self.values) else self

    @property
    def standing(self) -> tuple[Standing, ...]:
        """Every value that the map reads."""
        return (self.values() if callable(self.values) else self.values).standing

    @property
    def no_value(self) -> tuple[NoValue, ...]:
        """What the map reads and the file has no value of."""
        return (self.values() if callable(self.values) else self.values).no_value

    def edited(self) -> tuple[ValueChange, ...]:
        """The settings that a hand edited since or that moved along with these, and the rows that show it."""
        return tuple(change for group in self.groups for change in group.changes if change.recipe_value)

    def count(self) -> int:  # type: ignore[override]
        """How many settings changed."""
        return sum(len(group.changes) for group in self.groups)
