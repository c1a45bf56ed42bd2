"""A Review to a WholeSheet: every value that the map reads, as it stands in the file, by area."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.words import plural
from profilesmith.review.look_first import look_first_points
from profilesmith.review.render.names import trade_name
from profilesmith.review.render.sheet.of_review import by_hand_item, conflict_words
from profilesmith.review.render.sheet.sheet import Item
from profilesmith.review.review import Review, Standing
from profilesmith.review.sentences import command_name
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


class ValueRow(NamedTuple):
    """One setting. values: one for each tool, or one for all; before: where it was another; mark: "" or a word.

    note: what the recipes made of an edited value. text: how the file writes it, with its key.
    """

    setting: str
    name: str
    values: tuple[str, ...]
    before: str
    mark: str
    note: str
    key: str
    text: str
    place: str


class ValuePart(NamedTuple):
    """The values of one area, such as Supports."""

    title: str
    rows: tuple[ValueRow, ...]


class WholeSheet(NamedTuple):
    """A whole sheet. stop: why its values are not those of a derived file; tools: how many columns of values there are.

    has_before: whether there is something to hold the values against. gone: (name, why) of what the map reads and the
    file has no value of. commands: (place, new, old) of machine commands that changed along.
    """

    title: str
    subject: str
    lead: tuple[str, ...]
    parts: tuple[ValuePart, ...]
    tools: int
    has_before: bool
    stop: tuple[str, ...]
    look_first: tuple[tuple[str, str], ...]
    by_hand: tuple[Item, ...]
    commands: tuple[tuple[str, str, str], ...]
    gone: tuple[tuple[str, str], ...]
    notes: tuple[str, ...]
    cautions: tuple[str, ...]


def whole_sheet(review: Review) -> WholeSheet:
    """The sheet of a derivation, of a profile that was checked, or of the new side of a comparison."""
    review = review.with_values()
    one_file = len({item.file for item in review.standing}) == 1
    has_before = review.kind != "check" and not review.conflicts
    return WholeSheet(
        title=review.title,
        subject=review.subject,
        lead=_lead(review, has_before),
        parts=_parts(review, one_file),
        tools=max((len(item.values) for item in review.standing), default=1),
        has_before=has_before,
        stop=conflict_words(review),
        look_first=tuple((point.title or point.place, point.text) for point in look_first_points(review)),
        by_hand=tuple(by_hand_item(change) for change in review.by_hand),
        commands=tuple(
            (command_name(change), change.derived, change.base)
            for group in review.groups
            for change in group.changes
            if change.command
        ),
        gone=tuple((trade_name(item.setting), item.why) for item in review.no_value),
        notes=review.notes,
        cautions=review.cautions,
    )


def _lead(review: Review, has_before: bool) -> tuple[str, ...]:
    if not review.standing:
        return ("The map reads no value here: check the map against this text.",)
    counts = f"{plural(len(review.standing), 'value')} that the map reads"
    if has_before:
        counts += f"; {', '.join(_counts(review.standing))}"
    lead = [f"{counts}."]
    if review.conflicts:
        lead.append("Nothing was written, so these are the values of the file as it was.")
    elif review.from_ledger:
        lead.append("The file was edited since and cannot be read again: these are the values that were written then.")
    if has_before:
        lead.append("What changed is marked and has its old value beside it; everything else stands as it was.")
    return tuple(lead)


def _counts(standing: Sequence[Standing]) -> Iterator[str]:
    yield f"{sum(item.changed for item in standing)} changed"
    edited = sum(item.edited and not item.follows for item in standing)
    if edited:
        yield f"{edited} edited by hand since"
    follows = sum(item.follows for item in standing)
    if follows:
        yield f"{follows} moved along with an edit"


def _parts(review: Review, one_file: bool) -> tuple[ValuePart, ...]:
    by_area: dict[str, list[ValueRow]] = {}
    for item in review.standing:
        by_area.setdefault(item.area, []).append(_row(item, one_file))
    areas = load_vocabulary().areas
    return tuple(ValuePart(areas[area], tuple(by_area[area])) for area in areas if area in by_area)


def _row(item: Standing, one_file: bool) -> ValueRow:
    mark = "moved along" if item.follows else "edited" if item.edited else "changed" if item.changed else ""
    old = " | ".join(item.before) if item.before else "none"
    recipe = f"the recipes made it {' | '.join(item.recipe_value)}" if item.recipe_value else "no recipe put it here"
    line = f"line {item.line}" if item.line else ""
    return ValueRow(
        item.setting,
        trade_name(item.setting),
        item.values,
        old if item.changed else "",
        mark,
        recipe if item.edited else "",
        item.key,
        item.text,
        line if one_file else ", ".join(part for part in (item.file, line) if part),
    )
