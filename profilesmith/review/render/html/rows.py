"""The rows of a page: what a Review says of a setting, with trade words and signs, ready for the template."""

from __future__ import annotations

from collections.abc import Iterable

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.review.render.names import MoveSign, change_name, move, trade_name
from profilesmith.review.review import AreaChanges, Reason, Review, ValueChange
from profilesmith.review.sentences import by_rule

# What a rule's status says to a reader who never saw the ledger.
_STATUS_WORDS = {
    "changed": "decides",
    "added": "decides",
    "follows": "decides",
    "gave way": "decides",
    "held": "keeps the value",
    "kept": "met as well",
    "overruled": "overruled",
    "unanswered": "waits for an answer",
    "refused": "refused",
    "by hand": "to set by hand",
}


class RulePart(NamedTuple):
    """One rule's part in a row. status: in words."""

    cause: str
    demand: str
    why: str
    source: str
    status: str
    note: str


class ShownRow(NamedTuple):
    """A setting on the page. anchor: of the row itself; follows: it moved along with another; place: file and line."""

    anchor: str
    setting: str
    name: str
    meaning: str
    before: str
    after: str
    move: MoveSign
    relative: str
    follows: bool
    parts: tuple[RulePart, ...]
    place: str
    key: str
    old_text: str
    new_text: str
    note: str


class ShownGroup(NamedTuple):
    title: str
    rows: tuple[ShownRow, ...]


def shown_groups(groups: Iterable[AreaChanges], prefix: str = "") -> tuple[ShownGroup, ...]:
    """The groups of a page. prefix: of the rows' ids, where a page has several reviews."""
    return tuple(
        ShownGroup(
            group.title,
            tuple(shown_row(change, _anchor(change, prefix, number)) for number, change in enumerate(group.changes, 1)),
        )
        for group in groups
    )


def _anchor(change: ValueChange, prefix: str, number: int) -> str:
    """``change-support.density``; machine commands, of which one setting may have several, by their number."""
    return f"{prefix}command-{number}" if change.command else change_anchor(change.setting, prefix)


def change_anchor(setting: str, prefix: str = "") -> str:
    """The id of the row of a changed setting."""
    return f"{prefix}change-{setting}"


def shown_row(change: ValueChange, anchor: str = "") -> ShownRow:
    """anchor: the row's id; "" for the setting's, among those that changed nothing."""
    place = f"{change.file}, line {change.line}" if change.line else change.file
    # A hyphen is passed over by some screen readers; a minus sign is read.
    relative = change.relative.replace("-", "−", 1) if change.relative.startswith("-") else change.relative
    return ShownRow(
        anchor=anchor or f"of-{change.setting}",
        setting=change.setting,
        name=change_name(change),
        meaning=change.words,
        before=change.base,
        after=change.derived,
        move=move(change),
        relative=relative,
        follows=change.status == "follows",
        parts=tuple(_part(reason) for reason in change.reasons),
        place=place,
        key=change.key,
        old_text="" if change.command else change.old_text,
        new_text="" if change.command else change.new_text,
        note=change.note,
    )


def _part(reason: Reason) -> RulePart:
    return RulePart(
        reason.cause,
        reason.demand,
        reason.why,
        reason.source,
        _STATUS_WORDS.get(reason.status, reason.status),
        reason.note,
    )


class HandTask(NamedTuple):
    """What a person is to set: the settings under the rule that asks for them."""

    names: tuple[str, ...]
    part: RulePart
    rows: tuple[ShownRow, ...]


def hand_tasks(review: Review) -> tuple[HandTask, ...]:
    return tuple(
        HandTask(
            tuple(trade_name(change.setting) for change in changes),
            _part(reason),
            tuple(shown_row(change) for change in changes),
        )
        for reason, changes in by_rule(review.by_hand)
    )
