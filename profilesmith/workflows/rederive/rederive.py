"""Re-derive: a derived profile onto a newer base or newer recipes, with the edits that hands made of it since."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from profilesmith.engine.derive import Derivation, Exported, export, judged
from profilesmith.engine.read import read_answers
from profilesmith.engine.text_notes import unmapped_lines
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import CONFLICT, Problem, refuse_if
from profilesmith.ledger import Decision, Earlier
from profilesmith.ledger.file import LedgerFile
from profilesmith.ledger.place import ledger_beside
from profilesmith.ledger.read import Stored
from profilesmith.merge import decision as merging
from profilesmith.merge.decision import Choose
from profilesmith.merge.held import holdings
from profilesmith.merge.overruled import with_overruled
from profilesmith.merge.pinned import apply_around
from profilesmith.merge.replay import settled_ledger
from profilesmith.merge.settings import SettingMerge, merge_settings
from profilesmith.merge.settings import Sides as Holdings
from profilesmith.recipe.recipe import Recipe
from profilesmith.review.decisions import decision_sentence
from profilesmith.review.review import Review
from profilesmith.review.road import road_lines
from profilesmith.review.wording import visible
from profilesmith.translation.document_to_profile import Translation
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.derive import apply, inputs_of
from profilesmith.workflows.plain_file import sha256_of
from profilesmith.workflows.rederive.request import Again, base_words, request_again
from profilesmith.workflows.rederive.sides import Sides, derived_paths, read_sides
from profilesmith.workflows.rederive.texts import Merged, as_made, by_text, merge_texts
from profilesmith.workflows.request import Request
from profilesmith.workflows.review import broken_off, load_ledger

LONGEST_HISTORY = 50
UNKNOWN_LINES = "the ledger holds no copy of the text as it was made: whether a hand put this in or the base took it out cannot be told"


class Rederivation(NamedTuple):
    """derivation: ready for ``derive.write``. decisions: one for each edit of a hand. notes: what could not be taken over."""

    derivation: Derivation
    decisions: tuple[Decision, ...]
    notes: tuple[str, ...]


def rederive(derived: Sequence[str], asked: Request, choose: Choose) -> Rederivation:
    """Merge. asked: bases is the new base; what it leaves empty is as the ledger has it.

    choose: is asked for each conflict; where it says "" the call is refused and names them all. Raises Refused.
    """
    stored = load_ledger(derived[0])
    paths = derived_paths(derived, stored)
    refuse_if(_broken_off(stored, paths))
    folder = Path(derived[0]).parent
    bases = asked.bases or tuple(map(str, base_words(stored, folder)))
    refuse_if(_numbers(paths, bases) if asked.bases else [*_numbers(paths, bases), *_strange(bases)])
    again = request_again(stored, folder, asked._replace(bases=bases))
    translation, recipes, facts, ledger = apply(again.request)
    pure = export(translation, ledger, again.request.follow_literals)
    refuse_if(pure.ledger.problems)
    sides = read_sides(stored, paths, translation, pure.outputs)
    merges, first = _settings(sides, choose)
    answers = read_answers(again.request.answers, list(recipes), [])
    around = apply_around(ledger, merges, recipes, facts, answers, load_vocabulary())
    refuse_if(around.problems)
    replayed = pure if around is ledger else export(translation, around, again.request.follow_literals)
    merged = merge_texts(sides, merges, replayed.outputs, choose)
    decisions = [*first, *merged.decisions, *(() if sides.whole else _unknown_lines(sides))]
    refuse_if(_undecided(decisions))
    decisions = with_overruled(decisions, merged.translation.profile, recipes, facts, answers, load_vocabulary())
    derivation = _result(translation, recipes, replayed, merged, merges, decisions, again)
    inputs = inputs_of(again.request, translation, recipes, facts)
    unmapped = tuple(unmapped_lines(merged.translation))  # of the result, so that a later edit is found in its line
    history = _history(stored, ledger_beside(Path(derived[0])), decisions)
    file = derivation.file._replace(history=history, mends=stored.file.mends, unmapped=unmapped)
    made = derivation._replace(
        file=file,
        told=_shown(derivation.review, file, decisions),
        inputs=(*inputs, *map(str, paths), str(ledger_beside(Path(derived[0])))),
        call=again.call.call(),
        made=as_made(merged.before, sides.theirs, merges),
    )
    return Rederivation(made, tuple(decisions), again.notes)


def _broken_off(stored: Stored, paths: Sequence[Path]) -> list[Problem]:
    """A run that did not end: text and ledger may be of two derivations, and what differs is no edit of a hand."""
    left = broken_off(paths[0])
    same = [sha256_of(path) for path in paths] == [item.sha256 for item in stored.file.outputs]
    hint = "Derive it anew from its base, or put the text back as it was."
    return (
        [Problem("broken-off", f"{left.partition(';')[0]}.", Place(str(paths[0])), hint)] if left and not same else []
    )


def _shown(review: Review, file: LedgerFile, decisions: Sequence[Decision]) -> Review:
    """The review with what became of edits and mends."""
    return review._replace(file=file, edits=tuple(map(_told, decisions)), road=road_lines(file.mends))


def _told(decision: Decision) -> str:
    return visible(decision_sentence(decision))


def _numbers(paths: Sequence[Path], bases: Sequence[str]) -> list[Problem]:
    if len(paths) == len(bases):
        return []
    message = f"{len(paths)} derived files came from as many bases, but {len(bases)} are named."
    return [
        Problem(
            "bases",
            message,
            hint=f"Name one base with --onto for each of {', '.join(path.name for path in paths)}, in this order.",
        )
    ]


def _strange(bases: Sequence[str]) -> list[Problem]:
    """Bases that a ledger names and that are no plain files: a pipe would never end."""
    hint = "Name the base with --onto."
    return [
        Problem("unreadable", "The ledger names it as the base, but it is no plain file.", Place(base), hint)
        for base in bases
        if os.path.exists(base) and not os.path.isfile(Path(base))
    ]


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
    result = {}
    for name, entry in side.profile.entries.items():
        if load_vocabulary().settings[name].kind == "switch" and not entry.coupling and name in side.spots:
            first = firsts.setdefault(side.spots[name].lines[0], name)
            result |= {name: first} if first != name else {}
    return result


def _placed(decision: Decision, mine: Translation) -> Decision:
    entry = mine.profile.entries.get(decision.what)
    return decision._replace(file=entry.origin.file, line=entry.origin.line) if entry else decision


def _undecided(decisions: Sequence[Decision]) -> list[Problem]:
    hint = "Say which side counts with --prefer base or --prefer derived, or run it on a terminal to be asked."
    return [
        Problem("merge-conflict", decision_sentence(item), hint=hint, severity=CONFLICT)
        for item in decisions
        if item.outcome == merging.CONFLICT and not item.chosen
    ]


def _unknown_lines(sides: Sides) -> list[Decision]:
    """Lines that only the derived file has, where the ledger cannot tell whose they are."""
    from profilesmith.merge.text_lines import align, text_lines

    found = []
    for mine, theirs in zip(sides.mine.documents, sides.theirs.documents, strict=True):
        lines = text_lines(mine)
        pairs = align(lines, text_lines(theirs)).pairs
        found += [
            Decision(
                f"the line {line.name[:80]!r}",
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
    return found


def _result(
    translation: Translation,
    recipes: Sequence[Recipe],
    replayed: Exported,
    merged: Merged,
    merges: list[SettingMerge],
    decisions: Sequence[Decision],
    again: Again,
) -> Derivation:
    """The derivation of the merged texts: its ledger says what they read as."""
    ledger = settled_ledger(replayed.ledger, merged.translation.profile, merges, decisions)
    made = judged(
        translation, recipes, replayed._replace(ledger=ledger), merged.outputs, measured=again.request.measured
    )
    return made._replace(told=made.review._replace(notes=(*again.notes, *made.review.notes)))


def _history(stored: Stored, path: Path, decisions: Sequence[Decision]) -> tuple[Earlier, ...]:
    """The chain of ledgers, with this merge's decisions."""
    sha256 = sha256_of(path)
    refuse_if([] if sha256 else [Problem("unreadable", f"The ledger {path.name!r} went away.", hint="Run it again.")])
    recipes = tuple(f"{use.name} {use.version}" for use in stored.ledger.recipes)
    item = Earlier(sha256, stored.file.files, stored.file.outputs, recipes, tuple(decisions))
    return (*stored.file.history, item)[-LONGEST_HISTORY:]
