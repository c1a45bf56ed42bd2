"""The review in one screen: what was derived, what to look at first, one line a change, what comes next.

Reasons, sources, overruled rules and all lists are in the full text.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import zip_longest

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.words import plural
from profilesmith.ledger.ledger import TOOL
from profilesmith.review.consequences import LOOK_FIRST, counts_line, safety_topics
from profilesmith.review.look_first import look_first_points
from profilesmith.review.point import Point, PointMend
from profilesmith.review.render import Look
from profilesmith.review.render.answer_option import FOLLOW, answer_call
from profilesmith.review.review import Review, ValueChange
from profilesmith.review.sentences import ROAD, by_rule, command_name, held_title, is_comparison, unmapped_list
from profilesmith.review.wording import KEPT

MOST_BY_HAND = 6
MOST_POINTS = 8
MOST_NOTES = 3
MOST_OTHERS = 8
FULL = "--full"


class Piece(NamedTuple):
    """One line before it is wrapped. hang: how far its further lines stand in."""

    text: str
    style: str = ""
    indent: int = 0
    hang: int = 0


def brief(review: Review, look: Look) -> Iterator[Piece]:
    """The lines in order."""
    yield from _head(review)
    yield from look_first_lines(review, MOST_POINTS)
    yield from _road(review)
    if review.conflicts:
        others = plural(review.count(), "other setting would change", "other settings would change")
        yield Piece("")
        yield Piece(f"{others}: {FULL}" if review.count() else "Nothing else would change.")
        return
    yield from _changes(review, look.width)
    yield from _others(review)
    yield from _by_hand(review)
    yield from _rest(review)


def _road(review: Review) -> Iterator[Piece]:
    """What was mended after prints, and what came of it."""
    if review.road:
        yield Piece("")
        yield Piece(ROAD, "bold")
    yield from (Piece(f"- {text}", "", 2, 2) for text in review.road)


def _head(review: Review) -> Iterator[Piece]:
    yield Piece(_name_line(review), "bold")
    if review.recipes:
        yield Piece(" + ".join(review.recipes))
    yield Piece(counts_line(review))


def _name_line(review: Review) -> str:
    """``soft.settings  from base.settings, map heron-sheet``."""
    if not review.texts:
        return review.subject
    texts = ", ".join(review.texts)
    origin = f"{texts}, map {review.map_name}" if review.map_name else texts
    return f"{', '.join(review.outputs)}  from {origin}" if review.outputs else origin


def look_first_lines(review: Review, most: int = 99) -> Iterator[Piece]:
    """The points under their heading; none without a point."""
    points = look_first_points(review)
    if points:
        yield Piece("")
        yield Piece(LOOK_FIRST, "bold")
    shown = points[:most]
    for point, following in zip_longest(shown, shown[1:]):
        yield from _point(point)
        # Several conflicts of one kind are mended in one way, which is told behind the last.
        fix = fix_words(point.mend)
        if fix and (following is None or fix_words(following.mend) != fix):
            yield Piece(f"fix: {fix}", "", 6, 5)
    if len(points) > most:
        yield Piece(f"and {len(points) - most} more: {FULL}", "", 4)


def _point(point: Point) -> Iterator[Piece]:
    title = f"{point.title}: " if point.kind in ("alarm", "missed aim", "unsuited", "set by hand") else ""
    text = point.text if point.kind in ("conflict", "decision", "tools") else f"{title}{first_sentence(point.text)}"
    place = f"{point.place}  " if point.place else ""
    yield Piece(
        f"{'!' if point.urgent else '-'} {place}{text}",
        "bold red" if point.kind == "conflict" else "bold yellow" if point.urgent else "",
        2,
        2,
    )


def fix_words(mend: PointMend) -> str:
    """How the terminal mends a point."""
    if mend.follow:
        return f"the same call with {FOLLOW}"
    if mend.question is not None and mend.question.about and mend.question.about.name == TOOL:
        return "--tools N, counted from 1"
    if mend.question is not None:
        return answer_call(mend.question.about)
    return mend.words


def first_sentence(text: str) -> str:
    """Up to the first full stop that ends a sentence: one before a blank and a capital letter."""
    for at, char in enumerate(text[:-2]):
        if char == "." and text[at + 1] == " " and text[at + 2].isupper():
            return text[: at + 1]
    return text


def _changes(review: Review, width: int) -> Iterator[Piece]:
    changes = [change for group in review.groups for change in group.changes]
    if not changes:
        return
    rows = [_cells(change) for change in changes]
    heads = ("Differences" if is_comparison(review) else "Changes", "", "", "line", "rule")
    kept = _columns([heads, *rows], width)
    yield Piece("")
    yield Piece(_line(heads, kept), "bold")
    for change, cells in zip(changes, rows, strict=True):
        yield Piece(_line(cells, kept), "yellow" if change.recipe_value else "", 2, 4)


def _others(review: Review) -> Iterator[Piece]:
    """Of two texts what differs in keys that the map does not know."""
    if not review.others:
        return
    title, lines = unmapped_list(review)
    yield Piece("")
    yield Piece(title, "bold")
    yield from (Piece(text, "", 2, 4) for text in lines[:MOST_OTHERS])
    if len(lines) > MOST_OTHERS:
        yield Piece(f"and {len(lines) - MOST_OTHERS} more: {FULL}", "", 2)


def _cells(change: ValueChange) -> tuple[str, ...]:
    reason = next((reason for reason in change.reasons if reason.rule), None)
    mark = {"added": "added", "follows": "follows", "gave way": "gave way"}.get(change.status, "")
    rule = f"{reason.recipe} {reason.rule}" if reason else mark
    if change.recipe_value:
        rule = f"{'follows' if change.follows else 'edited'}; recipe: {change.recipe_value}"
    name = command_name(change) if change.command else change.setting
    return name, f"{_without_unit(change)} → {change.derived}", change.relative, str(change.line or ""), rule


def _without_unit(change: ValueChange) -> str:
    """The value before, without the unit that the one behind it has as well."""
    unit = change.derived.rpartition(" ")[2]
    alone = " " in change.derived and not unit.endswith(")") and "|" not in change.base + change.derived
    return change.base.removesuffix(f" {unit}") if alone and change.base[:1].isdigit() else change.base


def _columns(rows: list[tuple[str, ...]], width: int) -> dict[int, int]:
    """The columns that fit, each with its width; the relative change goes first, then line, rule, all of them."""
    wide = {at: max(len(row[at]) for row in rows) for at in range(5)}
    for gone in (2, 3, 4, 1):
        if sum(wide.values()) + 2 * len(wide) + 2 <= width:
            break
        del wide[gone]
    return wide


def _line(cells: tuple[str, ...], columns: dict[int, int]) -> str:
    if 1 not in columns:  # too narrow for columns: the values stay whole, on the same line or on the next
        return "  ".join(cell.replace(" ", KEPT) if len(cell) < 30 else cell for cell in cells[:2] if cell)
    parts = (f"{cells[at]:>{wide}}" if at == 3 else f"{cells[at]:<{wide}}" for at, wide in columns.items())
    return "  ".join(parts).rstrip()


def _by_hand(review: Review) -> Iterator[Piece]:
    rules = by_rule(review.by_hand)
    if not rules:
        return
    yield Piece("")
    yield Piece("To set by hand (your text has no key for it)", "bold")
    for reason, changes in rules[:MOST_BY_HAND]:
        names = ", ".join(change.setting for change in changes)
        yield Piece(f"{names}: {reason.demand}  [{reason.recipe} {reason.rule}]", "", 2, 2)
    if len(rules) > MOST_BY_HAND:
        yield Piece(f"and {len(rules) - MOST_BY_HAND} more: {FULL}", "", 2)
    waiting = [f"{change.setting} at {change.proposed}" for change in review.by_hand if change.proposed]
    if waiting:
        more = f" and {len(waiting) - MOST_BY_HAND} more ({FULL})" if len(waiting) > MOST_BY_HAND else ""
        shown = f"Proposed, not accepted yet: {', '.join(waiting[:MOST_BY_HAND])}{more}."
        yield Piece(f"{shown} Accept a block, and it is written.", "", 2, 2)


def _rest(review: Review) -> Iterator[Piece]:
    yield Piece("")
    if review.held:
        yield Piece(f"{held_title(review)}: {len(review.held)} ({FULL})")
    yield from (Piece(note, "", 0, 2) for note in review.notes[:MOST_NOTES])
    if len(review.notes) > MOST_NOTES:
        more = plural(len(review.notes) - MOST_NOTES, "more note")
        yield Piece(f"and {more} on the text: {FULL}", "", 2)
    topics = safety_topics(review)
    if topics:
        yield Piece(f"Safety: {', '.join(topics)} ({len(review.cautions)}: {FULL})", "", 0, 2)
    yield Piece(f"{counts_line(review)}. Reasons, sources, all lists: {FULL}", "bold", 0, 2)
