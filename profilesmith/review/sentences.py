"""Sentences that every readable rendering shares, so that all of them say the same."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby

from profilesmith.foundation.words import plural
from profilesmith.review.line_edit_words import line_edit_sentence
from profilesmith.review.review import AreaChanges, Reason, Review, ValueChange

COMMANDS = "Machine commands in start blocks"
ROAD = "The road: what was mended, and what came of it"


def summary(review: Review) -> str:
    """One line of counts."""
    changes = [change for group in review.groups for change in group.changes]
    commands = [change for change in changes if change.command]
    verb = (
        ("differs", "differ")
        if is_comparison(review)
        else ("would change",) * 2
        if review.conflicts
        else ("changed",) * 2
    )
    parts = [plural(len(changes) - len(commands), f"setting {verb[0]}", f"settings {verb[1]}")]
    others = {edit.key for edit in review.others}
    for items, one, many in (
        (review.held, "share rewritten", "shares rewritten"),
        (review.by_hand, "to set by hand", "to set by hand"),
        (commands, "machine command changed", "machine commands changed"),
        (others, "other key differs", "other keys differ"),
        (review.kept, "already right", "already right"),
        (not_found(review), "key of the map not found", "keys of the map not found"),
        (review.questions, "question open", "questions open"),
        (review.conflicts, "conflict", "conflicts"),
    ):
        if len(items):
            parts.append(plural(len(items), one, many))
    return ", ".join(parts)


def is_comparison(review: Review) -> bool:
    """Whether two profiles were put side by side, instead of one derived from another."""
    return review.kind == "comparison"


def not_found(review: Review) -> list[ValueChange]:
    """What is to be set by hand although the map has a key for it: a slip in the map or in the text."""
    return [change for change in review.by_hand if change.is_slip]


OTHERS = "Other keys that differ, which the map does not know"


def unmapped_list(review: Review) -> tuple[str, list[str]]:
    """Of two texts what differs in keys that the map does not know, of one text all such keys; with a title."""
    if is_comparison(review):
        return OTHERS, list(map(line_edit_sentence, review.others))
    return "Keys that the map does not know", [f"{line.file}:{line.line} {line.key}" for line in review.unmapped]


def runs(group: AreaChanges) -> Iterator[tuple[tuple[Reason, ...], list[ValueChange]]]:
    """Changes of a group that have the same deciding reason, told once."""

    def told(change: ValueChange) -> tuple[object, ...]:
        return tuple(
            (reason.cause, reason.why, reason.note) for reason in change.reasons
        ), change.note if not change.reasons else ""

    for _, changes in groupby(group.changes, told):
        listed = list(changes)
        yield listed[0].reasons, listed


def held_title(review: Review) -> str:
    """What the list of rewritten shares holds."""
    names = {change.setting.rpartition(".")[2] for change in review.held}
    return f"Shares rewritten so that their {'speeds' if names == {'speed'} else 'values'} stay"


def held_words(change: ValueChange) -> str:
    """``first_layer.speed 30 mm/s: 50 → 81``, with what is left over."""
    texts = f": {change.old_text} → {change.new_text}" if change.old_text != change.new_text else ""
    return f"{change.setting} {change.derived}{texts}{f' ({change.note})' if change.note else ''}"


def held_list(review: Review) -> tuple[str, list[str]]:
    """The rewritten shares under their title."""
    return held_title(review), [held_words(change) for change in review.held]


def command_name(change: ValueChange) -> str:
    """What a machine command is called by: ``in the start block, line 12``."""
    return f"in the start block, line {change.line}" if change.line else "in the start block"


def where(change: ValueChange) -> str:
    """``base.cfg:12 LayerThk = 0.2 → 0.12``, or ""."""
    if not change.file:
        return ""
    spot = f"{change.file}:{change.line}" if change.line else change.file
    if change.command:
        return f"{spot}  {change.key}".rstrip()
    texts = change.old_text if change.old_text == change.new_text else f"{change.old_text} → {change.new_text}"
    if not change.old_text and change.new_text:
        texts = f"added: {change.new_text}"
    return f"{spot}  {change.key} = {texts}" if texts and len(texts) <= 120 else f"{spot}  {change.key}"


def by_rule(changes: tuple[ValueChange, ...]) -> list[tuple[Reason, list[ValueChange]]]:
    """Settings gathered under each rule that asks for them, and apart where the text lacks them differently."""
    by_reason: dict[tuple[str, str, str], tuple[Reason, list[ValueChange]]] = {}
    for change in changes:
        for number, reason in enumerate(change.reasons):
            if number == 0 or reason.status == "by hand":
                by_reason.setdefault((reason.cause, reason.demand, reason.note), (reason, []))[1].append(change)
    return list(by_reason.values())


def places_words(places: Iterable[str]) -> str:
    """``base.settings:154, 157``: the lines of one file behind its name."""
    lines: dict[str, list[str]] = {}
    for place in dict.fromkeys(places):
        file, _, line = place.rpartition(":")
        lines.setdefault(file, []).append(line)
    return ", ".join(
        f"{file}:{', '.join(lines_of_file)}" if file else ", ".join(lines_of_file)
        for file, lines_of_file in lines.items()
    )
