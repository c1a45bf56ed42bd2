"""A Review to a Sheet: the changes, what its text has no key for, and what is to be found out first."""

from __future__ import annotations

from collections import Counter

from profilesmith.foundation.words import plural
from profilesmith.recipe.operations import BY_NAME, VALUE
from profilesmith.review.look_first import look_first_points
from profilesmith.review.render.names import change_name, trade_name, trade_words
from profilesmith.review.render.sheet.sheet import Ask, Item, Sheet, SheetPart, SheetReason, Step
from profilesmith.review.review import OpenQuestion, Reason, Review, ValueChange
from profilesmith.review.sentences import COMMANDS
from profilesmith.review.wording import visible
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

LEAD = (
    "Save your settings under a new name first, so that the old ones stay.",
    "Go from box to box. Set what stands here in bold, and tick it. Leave everything else as it is.",
    "Where your software shows another unit, change the number into that unit.",
)


HELD = "Shares of a value that changed"


def review_sheet(review: Review) -> Sheet:
    """The sheet of a derivation, or of the differences of two profiles."""
    parts = {group.title: [_changed(change) for change in group.changes] for group in review.groups}
    if review.held:
        parts[HELD] = [_held(change) for change in review.held]
    vocabulary = load_vocabulary()
    for change in review.by_hand:
        setting = vocabulary.settings.get(change.setting)
        title = vocabulary.areas[setting.area] if setting else "Others"
        parts.setdefault(title, []).append(by_hand_item(change))
    if len({item.file for items in parts.values() for item in items if item.file}) == 1:
        parts = {title: [_short(item) for item in items] for title, items in parts.items()}
    order = [*vocabulary.areas.values(), *parts]
    titles = sorted(parts, key=order.index)
    return Sheet(
        title=review.title,
        subject=review.subject,
        elsewhere=_elsewhere(review),
        lead=LEAD if parts else ("There is nothing to type in.",),
        parts=tuple(SheetPart(title, tuple(parts[title])) for title in titles),
        stop=conflict_words(review),
        look_first=tuple((point.title or point.place, point.text) for point in look_first_points(review)),
        asks=tuple(_ask(question, {change.setting for change in _all(review)}) for question in review.questions),
        start_blocks=tuple(map(str, review.literals)),
        reasons=_reasons(review),
        cautions=review.cautions,
        notes=tuple(f"Assumed: {text}" for text in review.assumed),
    )


def conflict_words(review: Review) -> tuple[str, ...]:
    """Each conflict with what to do about it."""
    return tuple(f"{problem.message} {problem.hint}".strip() for problem in review.conflicts)


def _elsewhere(review: Review) -> str:
    """Which values this sheet does not hold, and where they are."""
    boxed = {change.setting for change in (*_all(review), *review.held)}
    areas = load_vocabulary().areas
    others = Counter(areas[item.area] for item in review.standing if item.setting not in boxed)
    if not others:
        return ""
    where = "; ".join(f"{title} {others[title]}" for title in areas.values() if others[title])
    return (
        f"This sheet holds the changes. It does not hold {plural(others.total(), 'value')} that "
        f"{'stays as it is' if others.total() == 1 else 'stay as they are'} ({where}). "
        "The whole sheet has every value: ask for the form 'sheet' instead of 'checklist'."
    )


def _short(item: Item) -> Item:
    """Without the file's name, which the sheet's head tells when there is only one."""
    return item._replace(file="")


def _ask(question: OpenQuestion, boxed: set[str]) -> Ask:
    """boxed: settings that another rule has a box for, whatever the answer is."""
    waiting, boxed_only = (
        [trade_words(name) for name in question.settings if (name in boxed) == known] for known in (False, True)
    )
    parts = (
        f"leave {', '.join(waiting)} as it is" if waiting else "",
        f"only the boxes below count for {', '.join(boxed_only)}" if boxed_only else "",
    )
    return Ask("", question.ask, f"Until you know, {'; '.join(part for part in parts if part)}.")


def _changed(change: ValueChange) -> Item:
    if change.status == "only old":
        return _item(change, (Step("not set", "the new profile does not have it"),), boxed=False)
    if change.status == "follows":
        return _item(change, (Step(change.derived, "where your software shows a share instead, leave the share"),))
    return _item(change, (Step(change.derived),))


def _held(change: ValueChange) -> Item:
    """The share to type in, where a program shows shares; one that shows the value itself has it already."""
    how = f"the share that comes to {change.derived}; leave it where your software shows the value itself"
    return _item(change, (Step(change.new_text, how),))


def by_hand_item(change: ValueChange) -> Item:
    """A bound where the value is not known, since the text says nothing of it."""
    steps = tuple(_bound(reason, change.setting) for reason in change.reasons if reason.status == "by hand")
    return _item(change, steps or (Step(change.derived),), note=change.note or "your text has no key for it")


def _bound(reason: Reason, setting: str) -> Step:
    """``at most 40 mm/s`` with what to do about it; what several operations ask together stands as it is."""
    known = load_vocabulary().settings.get(setting)
    operation = BY_NAME.get(reason.asked[0].operation) if len(reason.asked) == 1 else None
    if known is None or operation is None or operation.reads != VALUE or not reason.asked[0].values:
        return Step(reason.demand)
    phrase, how = operation.by_hand
    return Step(operation.words([visible(known.show(value)) for value in reason.asked[0].values], phrase), how)


def _item(change: ValueChange, steps: tuple[Step, ...], boxed: bool = True, note: str = "") -> Item:
    text = change.new_text if change.new_text != change.old_text and not change.command else ""
    return Item(
        change_name(change),
        steps,
        old="" if change.base == "-" else change.base,
        key=change.key,
        text=text,
        file=change.file,
        line=change.line,
        note=note,
        boxed=boxed,
    )


def _all(review: Review) -> tuple[ValueChange, ...]:
    """Everything that has a box."""
    return (*(change for group in review.groups for change in group.changes), *review.by_hand)


def _reasons(review: Review) -> tuple[SheetReason, ...]:
    """Why, told once for all the boxes that a rule decides."""
    names: dict[tuple[str, str, str], list[str]] = {}
    for change in _all(review):
        for reason in change.reasons[:1]:
            if reason.why and change.status != "follows":
                name = COMMANDS if change.command else trade_name(change.setting)
                names.setdefault((reason.why, reason.cause, reason.source), []).append(name)
    return tuple(
        SheetReason(", ".join(dict.fromkeys(subjects)), why, "; ".join(part for part in (cause, source) if part))
        for (why, cause, source), subjects in names.items()
    )
