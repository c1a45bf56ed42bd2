"""Review: a ledger arranged for a person. Every rendering shows these rows and no others."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any, NamedTuple

from profilesmith.foundation.problem import Problem
from profilesmith.ledger import Line


class Reason(NamedTuple):
    """One rule's part in a change. cause: recipe, version and rule; note: what overruled or held it."""

    cause: str
    demand: str
    why: str
    source: str
    status: str
    note: str = ""


class Change(NamedTuple):
    """One setting. base, derived: for people; relative: ``-50 %`` or ""; reasons: the deciding ones first.

    command: it is a machine command of a start block, which repeats the setting; base and derived are its texts.
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


class Group(NamedTuple):
    """The changes of one area, such as Supports."""

    title: str
    changes: tuple[Change, ...]


class Question(NamedTuple):
    """What is not known: the question, and the rules that wait for it."""

    ask: str
    settings: tuple[str, ...]
    causes: tuple[str, ...]


class Consequence(NamedTuple):
    """What a check found. verdict: passed, note, caution, stop or not judged.

    text: one sentence for a maker. before, after, limit, headroom: short, "" where they say nothing. ask: the question
    whose answer would let the check judge.
    """

    check: str
    verdict: str
    title: str
    text: str
    before: str = ""
    after: str = ""
    limit: str = ""
    headroom: str = ""
    source: str = ""
    ask: str = ""


class Review(NamedTuple):
    """All that is shown. conflicts stop the export; literals are contradicting machine commands.

    held: settings whose share was rewritten so that they keep their values.
    kept: settings whose rules were already met; idle: rules that do not apply here, with their condition.
    unmapped: lines whose key the map does not know. notes: how the text was read. data: the machine-readable whole.
    consequences: what the checks found, worst first. caution_sources: a caution's text -> its source, where it has one.
    road: what was mended after prints, and what came of it.
    edits: what became of each edit that a hand made of an earlier derivation.
    """

    title: str
    subject: str
    recipes: tuple[str, ...]
    groups: tuple[Group, ...]
    by_hand: tuple[Change, ...]
    questions: tuple[Question, ...]
    kept: tuple[Change, ...]
    idle: tuple[Reason, ...]
    overruled: tuple[Change, ...]
    conflicts: tuple[Problem, ...]
    literals: tuple[str, ...]
    unmapped: tuple[Line, ...]
    unread: tuple[Line, ...]
    notes: tuple[str, ...]
    assumed: tuple[str, ...]
    cautions: tuple[str, ...]
    data: Mapping[str, Any]
    outputs: tuple[str, ...] = ()
    consequences: tuple[Consequence, ...] = ()
    caution_sources: Mapping[str, str] = MappingProxyType({})
    edits: tuple[str, ...] = ()
    held: tuple[Change, ...] = ()
    road: tuple[str, ...] = ()

    def count(self) -> int:  # type: ignore[override]
        """How many settings changed."""
        return sum(len(group.changes) for group in self.groups)
