"""Ledger: for every rule and every setting that it names, what happened and why. Reviews only render it."""

from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Literal, NamedTuple

from profilesmith.facts.facts import Facts, FactValue
from profilesmith.foundation.problem import Problem
from profilesmith.profile.profile import Profile
from profilesmith.vocabulary.setting import Value

Status = Literal[
    "changed",
    "added",
    "follows",
    "held",
    "gave way",
    "kept",
    "overruled",
    "by hand",
    "unanswered",
    "does not apply",
    "refused",
]

MOVING: tuple[Status, ...] = ("changed", "added", "follows", "gave way")
"""Of rows whose setting has another value than before."""

WRITING: tuple[Status, ...] = ("changed", "added", "held", "gave way")
"""Of rows whose setting is written anew."""

SAID_AGAIN = "the same key again, kept alike"
"""The note of a row that stands for a further line of a key; reviews name such lines once."""

STATUS_MEANING: Mapping[Status, str] = {
    "changed": "the value was changed by this rule",
    "added": "the key was not in the text and was added",
    "follows": "it is written relative to a value that changed",
    "held": "its share was rewritten, so that its value stays when the value that it is a share of moves",
    "gave way": "it went off because its key can hold one switch, and another was turned on",
    "kept": "already met: not touched",
    "overruled": "another rule asks for more, or comes later",
    "by hand": "the text has no key for it: set it yourself",
    "unanswered": "a fact is not known, so the rule was left out",
    "does not apply": "the rule's condition is not met here",
    "refused": "a hard limit or another rule stands against it",
}


class Cause(NamedTuple):
    """What asks: a rule of a recipe, a machine limit, an option of the call."""

    recipe: str
    version: str = ""
    rule: int = 0
    demand: str = ""
    why: str = ""
    source: str = ""
    place: str = ""

    def __str__(self) -> str:
        name = f"{self.recipe} {self.version}".strip()
        return f"{name}, rule {self.rule}" if self.rule else name


class Row(NamedTuple):
    """One pair of cause and setting.

    base, derived: canonical values, one for each tool; () when there is none.
    old_text, new_text, file, line, key: where and how the text holds it; empty without a key.
    note: more in a sentence (what overruled it, which bound the machine set, how the text writes it).
    ask: the question that an unanswered row has.
    """

    setting: str
    status: Status
    cause: Cause
    base: tuple[Value, ...] = ()
    derived: tuple[Value, ...] = ()
    old_text: str = ""
    new_text: str = ""
    file: str = ""
    line: int = 0
    key: str = ""
    note: str = ""
    ask: str = ""


AnswerOrigin = Literal["answer", "fact", "default"]


class Answer(NamedTuple):
    """An input's value, where it came from, and the text that said it ("" for a default).

    unit_kind: of a quantity or a window, such as ``flow``; "" for what has no unit.
    """

    value: FactValue
    origin: AnswerOrigin
    said: str = ""
    unit_kind: str = ""


class Line(NamedTuple):
    """A line of a text that no setting is read from."""

    file: str
    line: int
    key: str
    text: str


class RecipeUse(NamedTuple):
    """A recipe as it was used: what reviews say of it."""

    name: str
    version: str
    title: str
    cautions: tuple[str, ...] = ()
    once: bool = False
    file: str = ""
    answers: Mapping[str, Answer] = MappingProxyType({})


class Ledger(NamedTuple):
    """The whole derivation. problems: conflicts and refusals; with any of them nothing may be written.

    facts: all that was known of machine, spool and part.
    """

    base: Profile
    derived: Profile
    rows: tuple[Row, ...]
    recipes: tuple[RecipeUse, ...]
    problems: tuple[Problem, ...] = ()
    facts: Facts = MappingProxyType({})

    def changed_settings(self) -> Iterator[str]:
        """The settings whose value differs, in the derived profile's order."""
        for name, entry in self.derived.entries.items():
            before = self.base.entries.get(name)
            if before is None or before.values != entry.values:
                yield name

    def of_status(self, *statuses: Status) -> list[Row]:
        return [row for row in self.rows if row.status in statuses]
