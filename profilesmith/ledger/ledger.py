"""Ledger: for every rule and every setting that it names, what happened and why. Reviews only render it.

Of texts with several tools: how many, and what a derivation did to which of them.
"""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from types import MappingProxyType
from typing import Literal

from profilesmith.facts.facts import Facts, FactValue
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.problem import Problem
from profilesmith.ledger.cause import Cause, Note, NoteCode, Question
from profilesmith.ledger.exact import FACT_VALUE, NUMBER, VALUES
from profilesmith.ledger.form import LEFT_OUT, MET_AGAIN, Annotated, Further
from profilesmith.ledger.plain_forms import or_none
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
Values = Annotated[tuple[Value, ...], VALUES, MET_AGAIN]
BrokenRules = frozenset[tuple[str, str, int]]
"""What a value breaks: (setting, recipe, rule's number)."""
MOVING: tuple[Status, ...] = ("changed", "added", "follows", "gave way")
"""Of rows whose setting has another value than before."""
WRITING: tuple[Status, ...] = ("changed", "added", "held", "gave way")
"""Of rows whose setting is written anew."""


class Row(NamedTuple):
    """One pair of cause and setting.

    base, derived: canonical values, one for each tool; () when there is none.
    old_text, new_text, file, line, key: where and how the text holds it; empty (line 0) without a key.
    notes: what decided instead, which bound the machine set, why the text has no key. question: of an unanswered row.
    """

    setting: Annotated[str, "The setting.", Further(pattern="^[a-z0-9_]+\\.[a-z0-9_]+$")]
    status: Annotated[Status, "What happened."]
    cause: Annotated[Cause, "What asks.", MET_AGAIN]
    base: Annotated[Values, "Its value before."] = ()
    derived: Annotated[Values, "Its value after."] = ()
    old_text: Annotated[str, "How the text held it."] = ""
    new_text: Annotated[str, "How the text holds it now."] = ""
    file: Annotated[str, "The file that holds it."] = ""
    line: Annotated[int, "The line in it; 0 for none.", Further(minimum=0)] = 0
    key: Annotated[str, "The key that holds it."] = ""
    notes: Annotated[tuple[Note, ...], "More on what became of it.", LEFT_OUT, MET_AGAIN] = ()
    question: Annotated[Question | None, "What an unanswered rule waits for.", LEFT_OUT, MET_AGAIN] = None
    section: Annotated[str, "The section that the key stands in.", LEFT_OUT] = ""

    def has(self, *codes: NoteCode) -> bool:
        """Whether a note says one of these."""
        return any(note.code in codes for note in self.notes)


AnswerOrigin = Literal["answer", "fact", "default"]


class Answer(NamedTuple):
    """An input's value, where it came from, and the text that said it ("" for a default).

    unit_kind: of a quantity or a window, such as ``flow``; "" for what has no unit.
    """

    value: Annotated[FactValue, FACT_VALUE, "The value, exact, in the canonical unit.", MET_AGAIN]
    origin: Annotated[AnswerOrigin, "Where it came from."]
    said: Annotated[str, "The text that said it; empty where nobody did."] = ""
    unit_kind: Annotated[str, "What a quantity is of, such as flow; empty for what has no unit."] = ""


class Line(NamedTuple):
    """A line of a text that no setting is read from. text: at most its first 80 signs."""

    file: Annotated[str, "The file."]
    line: Annotated[int, "The line in it."]
    key: Annotated[str, "The key that the map does not know."]
    text: Annotated[str, "The value as written, at most its first 80 characters."]


class StartCommand(NamedTuple):
    """A machine command inside a value that contradicts the derived profile, and was left as it is.

    setting: whose value it contradicts, "" for a factor (M220, M221) that multiplies all. is_of_base: it repeats the
    base's value, so that it may be made to follow; else its number is nobody's but the person's.
    """

    file: Annotated[str, "The file."] = ""
    line: Annotated[int, "The line in it."] = 0
    command: Annotated[str, "The command, such as M104."] = ""
    number: Annotated[Fraction, NUMBER, "What it says."] = Fraction(0)
    setting: Annotated[str, "The setting that it contradicts; empty for a factor over all."] = ""
    derived: Annotated[Fraction | None, or_none(NUMBER), "That setting's derived value."] = None
    is_of_base: Annotated[bool, "Whether it repeats the base's value, and may be made to follow."] = False
    words: Annotated[str, "All that a ledger of format 1 has of it.", LEFT_OUT] = ""
    tool: Annotated[int, "Whose value that is, from 1, where tools have their own.", LEFT_OUT] = 0


class RecipeUse(NamedTuple):
    """A recipe as it was used: what reviews say of it. sha256, text: of its file, "" where it has none; the text as
    ``packed.pack`` has it.
    """

    name: Annotated[str, "The recipe's name."]
    version: Annotated[str, "The recipe's version.", Further(pattern="^[0-9]+\\.[0-9]+\\.[0-9]+([-+].*)?$")]
    title: Annotated[str, "What it makes of what."]
    cautions: Annotated[tuple[str, ...], "What it warns of.", MET_AGAIN] = ()
    once: Annotated[bool, "Scales or shifts: not to be applied to its own result."] = False
    answers: Annotated[Mapping[str, Answer], "Input name: its answer."] = MappingProxyType({})
    sha256: Annotated[str, "SHA-256 of its file's bytes; absent where nothing was written.", LEFT_OUT] = ""
    text: Annotated[
        str, "Its file's text (zlib, base64), so that a newer version can be held against it.", LEFT_OUT, MET_AGAIN
    ] = ""


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


TOOL = "spool.tool"


class Tools(NamedTuple):
    """many: tools of the text. chosen: the one that carries the spool, counted from 1; 0 where nobody said.

    own: settings with a value for each tool that were changed; shared: changed ones that all tools have in common.
    """

    many: int
    chosen: int
    own: tuple[str, ...]
    shared: tuple[str, ...]


def tools_of(profile: Profile) -> int:
    """How many tools a text has values for; 1 where it has no lists."""
    return max((len(entry.values) for entry in profile.entries.values()), default=1)


def tools_changed(ledger: Ledger) -> Tools | None:
    """What happened to which tools; None for a text of one tool, and where nothing was changed."""
    many = tools_of(ledger.base)
    moved = list(dict.fromkeys(row.setting for row in ledger.rows if row.status in MOVING))
    if many < 2 or not moved:
        return None
    fact = ledger.facts.get(TOOL)
    own = tuple(name for name in moved if len(ledger.derived.values(name)) > 1)
    shared = tuple(name for name in moved if name not in own and ledger.derived.values(name))
    return Tools(many, int(fact.value) if fact and not isinstance(fact.value, (str, tuple)) else 0, own, shared)
