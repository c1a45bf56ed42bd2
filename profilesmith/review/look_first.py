"""What could spoil the print, in the order in which a person should look: the same list for every rendering.

Comes in: a review. Goes out: points as data with their words; how a point is mended stands in it as a ``PointMend``,
which each door words in its own way (an option, a form field, nothing on paper).
"""

from collections import Counter
from collections.abc import Iterator

from profilesmith.foundation.words import plural
from profilesmith.ledger import Row
from profilesmith.ledger.history import BY_HAND
from profilesmith.ledger.judgement import ALARMS
from profilesmith.review.point import Point, PointMend
from profilesmith.review.review import LeftCommand, Reason, Review, ValueChange
from profilesmith.review.sentences import places_words
from profilesmith.review.wording import visible

FEATURES = {"support": "Supports", "raft": "The raft", "brim": "The brim", "retraction": "Pulling back"}
NOZZLE = ("nozzle.temperature", "first_layer.nozzle_temperature")
OWN_COMMAND = "write the right temperature into it, unless a later command heats to that"


def look_first_points(review: Review) -> tuple[Point, ...]:
    """Conflicts, tools, edits that break a rule, start blocks, alarms, missed aims, two filaments,
    what is off, unread, questions."""
    if review.conflicts:
        return tuple(_conflicts(review))
    return (
        *_tools(review),
        *_edits(review),
        *_decided(review),
        *_start_blocks(review),
        *_alarms(review),
        *_missed(review),
        *_missed_aims(review),
        *_two_filaments(review),
        *_unsuited(review),
        *_missed_by_hand(review),
        *_switched_off(review),
        *_once(review),
        *_unread(review),
        *_questions(review),
    )


def _conflicts(review: Review) -> Iterator[Point]:
    for problem in review.conflicts:
        yield Point("conflict", True, problem.message, mend=PointMend(words=problem.hint))


def _tools(review: Review) -> Iterator[Point]:
    if review.tools:
        from profilesmith.review.tools_words import tools_words

        for urgent, text, mend in tools_words(review.tools):
            yield Point("tools", urgent, text, "Tools", mend=mend)


def _edits(review: Review) -> Iterator[Point]:
    for change in review.edited():
        if change.breaks:
            spot = f"{change.file}:{change.line}" if change.line else change.file
            text = f"{change.setting} is {change.derived} by hand, the recipe made it {change.recipe_value}"
            mend = PointMend(words=f"write {change.recipe_value} there again, or try it on a small test piece first")
            yield Point("edit", True, f"{text}; it breaks {'; '.join(change.breaks)}", place=spot, mend=mend)


def _decided(review: Review) -> Iterator[Point]:
    """What became of the edits that a hand made of an earlier derivation."""
    for text in review.edits:
        yield Point("decision", False, text)


def _start_blocks(review: Review) -> Iterator[Point]:
    """Commands of one wrong temperature together; a factor that was there before is good to know only."""
    together: dict[tuple[str, bool, bool], list[LeftCommand]] = {}
    for item in review.literals:
        together.setdefault((item.says, item.can_follow, item.heats), []).append(item)
    for (says, can_follow, heats), items in together.items():
        commands = " and ".join(dict.fromkeys(item.command for item in items if item.command))
        places = places_words(item.place for item in items if item.place)
        text = f"{commands} {says}".strip()
        mend = PointMend(words=OWN_COMMAND) if heats else PointMend()
        if can_follow:
            mend = PointMend(follow=not review.edited(), words=_start_block_mend(review))
        yield Point("start block", can_follow or heats, text, "Start block", places, mend)


def _start_block_mend(review: Review) -> str:
    """Deriving again would undo what a hand edited, so then the command itself is what to edit."""
    if any(change.breaks for change in review.edited()):
        return "mend the edited value above first, then write the right temperature into the command too"
    return "write that temperature into the command" if review.edited() else "Derive again and let start blocks follow."


def _alarms(review: Review) -> Iterator[Point]:
    for item in review.consequences:
        if item.verdict in ALARMS:
            yield Point("alarm", True, item.text, item.title)


def _missed(review: Review) -> Iterator[Point]:
    for item in review.consequences:
        if item.misses_aim and item.verdict not in ALARMS:
            yield Point("missed aim", True, item.text, item.title)


def _missed_aims(review: Review) -> Iterator[Point]:
    """Aims of recipes that a bound of another recipe or of the machine holds back; a window of their own is as
    meant.
    """
    held = {
        (row.setting, row.cause.recipe, row.cause.rule)
        for row in review.rows
        if row.cause.kind == "rule" and row.cause.recipe != BY_HAND and _is_held_back(row)
    }
    together: dict[tuple[str, str], list[str]] = {}
    for change in (*(item for group in review.groups for item in group.changes), *review.overruled, *review.kept):
        for reason in change.reasons:
            if (change.setting, reason.recipe, reason.rule) in held:
                held.remove((change.setting, reason.recipe, reason.rule))
                text = f"{change.setting} is {change.derived}, not {_wanted(reason) or reason.demand}"
                together.setdefault((reason.recipe, reason.note), []).append(text)
    for (recipe, note), texts in together.items():
        yield Point("missed aim", False, f"{', '.join(texts)}: {note}", f"{recipe} misses its aim")


def _is_held_back(row: Row) -> bool:
    return any(note.code == "held inside" and note.by and note.by.recipe != row.cause.recipe for note in row.notes)


def _two_filaments(review: Review) -> Iterator[Point]:
    """Recipes that aim the nozzle at temperatures of their own. That they are for two filaments no data say."""
    if any(row.has("later aim") and row.setting in NOZZLE for row in review.rows):
        from profilesmith.review.two_filaments import two_aims  # few derivations have them

        mend = PointMend(words="where these are for two filaments, leave out the one that your spool is not")
        for text in two_aims(review.rows, NOZZLE):
            yield Point("two filaments", False, text, mend=mend)


def _unsuited(review: Review) -> Iterator[Point]:
    """Recipes of which nothing applies or nothing can be written here, and what was asked in spite of spool or part."""
    rows: dict[str, list[Row]] = {}
    for row in review.rows:
        if row.cause.kind == "rule" and row.cause.recipe != BY_HAND:
            rows.setdefault(row.cause.recipe, []).append(row)
    conditions = {reason.recipe: reason.note for reason in reversed(review.idle)}
    for recipe, asked in rows.items():
        statuses = {row.status for row in asked}
        if statuses == {"does not apply"}:
            yield Point(
                "unsuited", False, f"nothing of it applies here: it {conditions.get(recipe, '')}", visible(recipe)
            )
        elif "by hand" in statuses and statuses <= {"by hand", "does not apply"}:
            yield Point("unsuited", False, "the text has a key for none of its settings", visible(recipe))
    for item in review.consequences:
        if item.unsuited and item.verdict not in ALARMS:
            yield Point("unsuited", False, item.text, item.title)


def _missed_by_hand(review: Review) -> Iterator[Point]:
    """What was set by hand and is not so: a bound holds it, its key takes no such value, or the text has no key
    for it.
    """
    missed = {row.setting for row in review.rows if row.cause.recipe == BY_HAND and not _is_met(row)}
    listed = (*review.overruled, *review.kept, *review.held, *review.by_hand)
    for change in (*(item for group in review.groups for item in group.changes), *listed):
        reason = next((item for item in change.reasons if item.recipe == BY_HAND), None)
        if reason and change.setting in missed and not change.recipe_value:
            missed.remove(change.setting)
            yield _missed_value(change, reason)


def _is_met(row: Row) -> bool:
    """Whether the derived text holds what the row asks, for each tool, or a mend after a print has moved it on."""
    if row.has("later aim"):
        return True
    return row.status != "by hand" and {*row.derived} == {value for item in row.cause.asked for value in item.values}


def _missed_value(change: ValueChange, reason: Reason) -> Point:
    wanted = _wanted(reason) or reason.demand
    note = reason.note or change.note
    reasoned = f": {note}" if note else ""
    if change.status == "by hand":
        text = f"{change.setting} is not written{reasoned}; set {wanted} yourself"
    else:
        text = f"{change.setting} is {change.derived}, not {wanted}{reasoned}"
    return Point("set by hand", True, text, "Set by hand", f"{change.file}:{change.line}" if change.line else "")


def _wanted(reason: Reason) -> str:
    """What was asked as it was written; of beads and layers how many that is; "" of what an input or a fact says."""
    fixed, counts = [], []
    for item in reason.asked:
        counts += [str(value) for value in item.values if any(operand.counts for operand in item.operands)]
        fixed += [visible(operand.name) for operand in item.operands if operand.kind == "fixed"]
    return ", ".join(counts or fixed)


def _switched_off(review: Review) -> Iterator[Point]:
    """A feature that is off in the end, and whose settings changed all the same."""
    off = {name.partition(".")[0] for name in review.off}
    changed = Counter(
        change.setting.partition(".")[0]
        for group in review.groups
        for change in group.changes
        if not change.command and not change.setting.endswith(".on")
    )
    for feature, title in FEATURES.items():
        if feature in off and changed[feature]:
            has = "has" if changed[feature] == 1 else "have"
            verb = "are" if title.endswith("s") else "is"
            settings = plural(changed[feature], f"changed {feature} setting", f"changed {feature} settings")
            yield Point("switched off", False, f"{title} {verb} off: {settings} {has} no effect")


def _once(review: Review) -> Iterator[Point]:
    for name in review.once:
        yield Point("once", False, f"{name} scales or shifts values: apply it once, never to its own result")


def _unread(review: Review) -> Iterator[Point]:
    if not review.unread:
        return
    from profilesmith.review.unread_words import unread_words  # few texts have such lines

    for text, place in unread_words(review.unread):
        yield Point("unread", False, text, place=place)


def _questions(review: Review) -> Iterator[Point]:
    for question in review.questions:
        about = ", ".join(question.settings[:4]) + (", ..." if len(question.settings) > 4 else "")
        stay = "stays as it is" if len(question.settings) == 1 else "stay as they are"
        yield Point("question", False, f"{question.ask} Until then {about} {stay}", mend=PointMend(question=question))
