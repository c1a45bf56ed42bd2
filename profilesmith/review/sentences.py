"""Sentences that every readable rendering shares, so that all of them say the same."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from profilesmith.review.review import Change, Group, Reason, Review


def plural(count: int, one: str, many: str = "") -> str:
    """``1 setting``, ``3 settings``."""
    return f"{count} {one if count == 1 else many or one + 's'}"


def summary(review: Review) -> str:
    """One line of counts."""
    parts = [plural(review.count(), "setting differs", "settings differ") if not review.recipes else plural(review.count(), "setting changed", "settings changed")]
    for found, one, many in (
        (review.kept, "already right", "already right"), (review.by_hand, "to set by hand", "to set by hand"),
        (review.questions, "question open", "questions open"), (review.conflicts, "conflict", "conflicts"),
    ):  # fmt: skip
        if found:
            parts.append(plural(len(found), one, many))
    return ", ".join(parts)


def runs(group: Group) -> Iterator[tuple[tuple[Reason, ...], list[Change]]]:
    """Changes of a group that have the same deciding reason, told once."""
    def told(change: Change) -> tuple[object, ...]:
        return tuple((reason.cause, reason.why, reason.note) for reason in change.reasons), change.note if not change.reasons else ""

    for _, changes in groupby(group.changes, told):
        listed = list(changes)
        yield listed[0].reasons, listed


def where(change: Change) -> str:
    """``base.cfg:12 LayerThk = 0.2 → 0.12``, or ""."""
    if not change.file:
        return ""
    spot = f"{change.file}:{change.line}" if change.line else change.file
    texts = change.old_text if change.old_text == change.new_text else f"{change.old_text} → {change.new_text}"
    if not change.old_text and change.new_text:
        texts = f"added: {change.new_text}"
    return f"{spot}  {change.key} = {texts}" if texts and len(texts) <= 120 else f"{spot}  {change.key}"


def by_rule(changes: tuple[Change, ...]) -> list[tuple[Reason, list[Change]]]:
    """Settings gathered under the first rule that asks for them."""
    found: dict[tuple[str, str], tuple[Reason, list[Change]]] = {}
    for change in changes:
        reason = change.reasons[0]
        found.setdefault((reason.cause, reason.demand), (reason, []))[1].append(change)
    return list(found.values())
