"""Re-derive: a derived profile onto a newer base or newer recipes, with the edits that hands made of it since."""

from __future__ import annotations

from collections.abc import Sequence

from profilesmith.checks.case import UNKNOWN, Measured
from profilesmith.engine.derive import Derivation, Exported, export, judged, ledger_of
from profilesmith.engine.read import Ingredients
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.problem import CONFLICT, Problem, refuse_if
from profilesmith.ledger import Decision, Earlier
from profilesmith.ledger.file import LedgerFile
from profilesmith.ledger.history import line_named
from profilesmith.ledger.not_as_then import NotAsThen
from profilesmith.ledger.read import Stored
from profilesmith.merge import decision as merging
from profilesmith.merge.decision import Choose
from profilesmith.merge.held import holdings
from profilesmith.merge.merged_texts import Merged, as_made, by_text, merge_texts
from profilesmith.merge.overruled import with_overruled
from profilesmith.merge.pinned import apply_around
from profilesmith.merge.replay import settled_ledger
from profilesmith.merge.settings import ProfileSides as Holdings
from profilesmith.merge.settings import SettingMerge, merge_settings
from profilesmith.merge.sides import Sides, read_sides
from profilesmith.merge.text_lines import align, text_lines
from profilesmith.review.again_notes import again_notes
from profilesmith.review.decisions import decision_sentence
from profilesmith.review.reading_notes import unmapped_lines
from profilesmith.review.review import Review
from profilesmith.review.road import road_lines
from profilesmith.review.wording import visible
from profilesmith.text.document import Document
from profilesmith.translation.document_to_profile import Translation
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

LONGEST_HISTORY = 50
UNKNOWN_LINES = "no-copy-of-the-text"


class Rederivation(NamedTuple):
    """decisions: one for each edit of a hand. not_as_then: what could not be taken over.

    standing, made: how the derived texts read as they stood, and as they are made now.
    """

    derivation: Derivation
    decisions: tuple[Decision, ...]
    not_as_then: NotAsThen
    standing: Translation
    made: Translation
    stored: Stored


class DerivedThen(NamedTuple):
    """What was derived then. edited: its texts as they are now; sha256: of the ledger's bytes."""

    stored: Stored
    sha256: str
    edited: tuple[Document, ...]


class How(NamedTuple):
    """follow: temperatures in start blocks are changed too. measured: of motion files. not_as_then: what the caller
    could not take over.
    """

    follow: bool = False
    measured: Measured = UNKNOWN
    not_as_then: NotAsThen = NotAsThen()


def rederive(before: DerivedThen, given: Ingredients, choose: Choose, how: How) -> Rederivation:
    """Merge. given: the new base, with the recipes, facts and answers that make the derivation again.

    choose: is asked for each conflict; where it says "" the call is refused and names them all. Raises Refused.
    """
    stored, translation, recipes = before.stored, given.translation, given.recipes
    ledger = ledger_of(given)
    pure = export(translation, ledger, how.follow)
    refuse_if(pure.ledger.problems)
    sides = read_sides(stored, before.edited, translation, pure.outputs)
    merges, first = _settings(sides, choose)
    around = apply_around(ledger, merges, recipes, given.facts, given.answers, load_vocabulary())
    refuse_if(around.problems)
    replayed = pure if around is ledger else export(translation, around, how.follow)
    merged = merge_texts(sides, merges, replayed.outputs, choose)
    decisions = [*first, *merged.decisions, *(() if sides.whole else _unknown_lines(sides))]
    refuse_if(_undecided(decisions))
    profile = merged.translation.profile
    decisions = with_overruled(decisions, profile, recipes, given.facts, given.answers, load_vocabulary())
    derivation = _result(given, replayed, merged, merges, decisions, how)
    unmapped = derivation.file.unmapped
    if merged.outputs != pure.outputs:  # of the result, so that a later edit is found in its line
        unmapped = tuple(unmapped_lines(merged.translation))
    history = _history(before, decisions)
    file = derivation.file._replace(history=history, mends=stored.file.mends, unmapped=unmapped)
    review = _shown(derivation.review, file, decisions)
    made = derivation._replace(file=file, worded=review, made=as_made(merged.before, sides.theirs, merges))
    return Rederivation(made, tuple(decisions), how.not_as_then, sides.mine, merged.translation, stored)


def _shown(review: Review, file: LedgerFile, decisions: Sequence[Decision]) -> Review:
    """The review with what became of edits and mends."""
    return review._replace(file=file, edits=tuple(map(_told, decisions)), road=road_lines(file.mends))


def _told(decision: Decision) -> str:
    return visible(decision_sentence(decision))


def _settings(sides: Sides, choose: Choose) -> tuple[list[SettingMerge], list[Decision]]:
    """The settings that were edited, and their decisions with the line at which the edit stands."""
    vocabulary, readings = load_vocabulary(), (sides.old, sides.mine, sides.theirs)
    riders = {
        entry.coupling.switch: name
        for side in readings
        for name, entry in side.profile.entries.items()
        if entry.coupling
    } | _sharing_a_key(sides.mine)
    held = Holdings(*(holdings(side, vocabulary) for side in readings))

    def placed(decision: Decision) -> str:
        return choose(_placed(decision, sides.mine))

    merges = by_text(merge_settings(held, riders, vocabulary, placed), sides)
    decisions = [_placed(item.decision, sides.mine) for item in merges if item.setting == item.decision.what]
    return merges, decisions


def _sharing_a_key(side: Translation) -> dict[str, str]:
    """Each switch but the first of its key, and that first one."""
    firsts: dict[object, str] = {}
    result: dict[str, str] = {}
    for name, entry in side.profile.entries.items():
        if load_vocabulary().settings[name].kind == "switch" and not entry.coupling and name in side.spots:
            first = firsts.setdefault(side.spots[name].lines[0], name)
            result |= {name: first} if first != name else {}
    return result


def _placed(decision: Decision, mine: Translation) -> Decision:
    entry = mine.profile.entries.get(decision.what)
    return decision._replace(file=entry.origin.file, line=entry.origin.line) if entry else decision


def _undecided(decisions: Sequence[Decision]) -> list[Problem]:
    hint = "Say which side counts: the new base, or the derived file as it is now."
    return [
        Problem("merge-conflict", decision_sentence(item), hint=hint, severity=CONFLICT)
        for item in decisions
        if item.outcome == merging.CONFLICT and not item.chosen
    ]


def _unknown_lines(sides: Sides) -> list[Decision]:
    """Lines that only the derived file has, where the ledger cannot tell whose they are."""
    decisions = []
    for mine, theirs in zip(sides.mine.documents, sides.theirs.documents, strict=True):
        lines = text_lines(mine)
        pairs = align(lines, text_lines(theirs)).pairs
        decisions += [
            Decision(
                line_named(line.name[:80]),
                "line",
                merging.LEFT_OUT,
                "",
                mine.text[line.start : line.end][:80],
                why=UNKNOWN_LINES,
                file=mine.name,
                line=line.number,
            )
            for at, line in enumerate(lines)
            if at not in pairs and line.kind != "blank"
        ]
    return decisions


def _result(
    given: Ingredients,
    replayed: Exported,
    merged: Merged,
    merges: list[SettingMerge],
    decisions: Sequence[Decision],
    how: How,
) -> Derivation:
    """The derivation of the merged texts: its ledger says what they read as."""
    ledger = settled_ledger(replayed.ledger, merged.translation.profile, merges, decisions)
    exported = replayed._replace(ledger=ledger)
    made = judged(given.translation, given.recipes, exported, merged.outputs, measured=how.measured)
    return made._replace(worded=made.review._replace(notes=(*again_notes(how.not_as_then), *made.review.notes)))


def _history(before: DerivedThen, decisions: Sequence[Decision]) -> tuple[Earlier, ...]:
    """The chain of ledgers, with this merge's decisions."""
    file = before.stored.file
    recipes = tuple(f"{use.name} {use.version}" for use in before.stored.ledger.recipes)
    item = Earlier(before.sha256, file.files, file.outputs, recipes, tuple(decisions))
    return (*file.history, item)[-LONGEST_HISTORY:]
