"""Mend: what to change after a print, and the mended file, whose ledger carries the road on."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

from profilesmith.engine.derive import Derivation
from profilesmith.engine.read import read_answers
from profilesmith.engine.source import Source
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.ledger.mends import Grade, Verdict
from profilesmith.ledger.read import Stored
from profilesmith.mend.advise import Advice, advise
from profilesmith.mend.as_rules import LAID, mends_recipe
from profilesmith.mend.belief import World
from profilesmith.mend.bench import Bench, bench_of, cannot_be
from profilesmith.mend.proposal import Proposal, proposals, step_changes
from profilesmith.mend.road import RoadStep, mends_of, origins
from profilesmith.mend.so_far import SoFar, so_far
from profilesmith.mend.troubles import Knowledge
from profilesmith.review.road import road_lines
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.derive import apply
from profilesmith.workflows.printed import read_now
from profilesmith.workflows.rederive.rederive import rederive
from profilesmith.workflows.rederive.request import base_words, laid_in, request_again
from profilesmith.workflows.request import Request
from profilesmith.workflows.review import load_ledger
from profilesmith.workflows.road import road_in


class Asked(NamedTuple):
    """What the maker says. seen: trouble -> grade; looks: sign -> yes or no; did: doings done before this print.

    rest_good: all other troubles were looked for, and were not there. changes: how many at once.
    """

    seen: Mapping[str, Grade] = {}
    looks: Mapping[str, bool] = {}
    did: tuple[str, ...] = ()
    last: Verdict = ""
    rest_good: bool = False
    changes: int = 1
    date: str = ""
    library: Path | None = None


class Mended(NamedTuple):
    """advice: all that is proposed, the first first; chosen: what -o writes; first_doings stand before it in words."""

    derived: str
    so_far: SoFar
    advice: Advice
    proposals: tuple[Proposal, ...]
    chosen: tuple[Proposal, ...]
    bench: Bench
    stored: Stored
    steps: tuple[RoadStep, ...]


def mend(derived: str, asked: Asked, known: Knowledge) -> Mended:
    """What to change next. Raises Refused."""
    stored = load_ledger(derived)
    refuse_if(stored.ledger.problems)
    steps = road_in(stored, derived)
    folder, vocabulary = Path(derived).parent, load_vocabulary()
    now = read_now(derived, stored, Request((), "", library=asked.library)).profile
    request = request_again(stored, folder, Request(_bases(stored, folder), "", library=asked.library)).request
    translation, recipes, facts, _ = apply(request._replace(laid=()))
    answers = read_answers(request.answers, recipes, [])
    names = _asked_after(known, steps, asked)
    base = translation.profile
    bench = bench_of(known, now, base, recipes, facts, answers, vocabulary, names)
    world = World(known, cannot_be(known, facts, base, vocabulary))
    past = so_far(steps, bench, known, asked.seen, asked.looks, asked.did, asked.last, asked.rest_good)
    advice = advise(world, past.prints, bench.room(origins(steps)), past.worse)
    is_bad = any(grade != "good" for grade in past.seen.values())
    found = proposals(world, advice, past, bench, origins(steps), vocabulary) if is_bad else ()
    chosen = _chosen(world, advice, past, bench, steps, found, asked.changes)
    return Mended(derived, past, advice, found, chosen, bench, stored, steps)


def _bases(stored: Stored, folder: Path) -> tuple[str, ...]:
    """Where the bases lie. Raises Refused when one went away: recipes and bounds are worked out from it."""
    found = tuple(map(str, base_words(stored, folder)))
    hint = "Put it back, or carry the derived file onto another with 'profilesmith rederive DERIVED --onto NEWBASE -o NEW'."
    refuse_if(
        Problem("no-base", "The base that the file was derived from is not there.", Place(base), hint)
        for base in found
        if not Path(base).is_file()
    )
    return found


def _asked_after(known: Knowledge, steps: Sequence[RoadStep], asked: Asked) -> set[str]:
    """The settings that may help with any trouble that was ever seen, and those that were moved."""
    seen = {
        name for item in (*(step.seen for step in steps), asked.seen) for name, grade in item.items() if grade != "good"
    }
    causes = [cause for name in seen if name in known.troubles for cause in known.troubles[name].causes]
    return {cause.setting for cause in causes if cause.setting} | set(origins(steps))


def _chosen(
    world: World,
    advice: Advice,
    past: SoFar,
    bench: Bench,
    steps: Sequence[RoadStep],
    found: Sequence[Proposal],
    wanted: int,
) -> tuple[Proposal, ...]:
    """The first proposal that is a setting, and up to ``wanted`` in all: each further one is the best beside those before."""
    first = next((item for item in found if not item.do), None)
    chosen = [] if first is None else [first]
    while chosen and len(chosen) < wanted:
        made = [change for item in chosen for change in item.option.changes]
        more = advise(world, past.prints, bench.room(origins(steps)), past.worse, advice.guesses, made)
        listed = proposals(world, more, past, bench, origins(steps), load_vocabulary())
        named = {move.setting for item in chosen for move in item.moves}
        others = (item for item in (*listed, *found) if named.isdisjoint(move.setting for move in item.moves))
        further = next((item for item in others if not item.do), None)
        if further is None:
            break
        chosen.append(further)
    return tuple(chosen)


def write_mend(mended: Mended, asked: Asked) -> Derivation:
    """The mended file, to be written by ``derive.write``. Raises Refused where there is nothing to write."""
    if not mended.chosen and not asked.last:
        hint = "Nothing of it is a setting here: do what it says, print again, and say what you saw."
        raise Refused([Problem("no-mend", "There is no setting to change.", Place(mended.derived), hint)])
    changes = step_changes(mended.chosen, mended.bench, load_vocabulary())
    step = RoadStep(mended.so_far.seen, asked.looks, changes, asked.did, asked.last, False, asked.date)
    return _carried_on(mended.derived, mended.stored, (*mended.steps, step), asked.library)


def undo(derived: str, asked: Asked) -> Derivation:
    """The last mend taken back. Raises Refused where there is none."""
    stored = load_ledger(derived)
    steps = road_in(stored, derived)
    standing = undoable(steps)
    if not standing:
        raise Refused([Problem("no-mend", "There is no mend to undo.", Place(derived), "Mend it first.")])
    changes = tuple(item._replace(before=item.after, after=item.before) for item in reversed(standing[-1].changes))
    step = RoadStep({}, {}, changes, (), asked.last, True, asked.date)
    return _carried_on(derived, stored, (*steps, step), asked.library)


def undoable(steps: Sequence[RoadStep]) -> list[RoadStep]:
    """The steps that changed something and were not taken back, the last one last."""
    standing: list[RoadStep] = []
    for step in steps:
        if step.undo:
            standing = standing[:-1]
        elif step.changes:
            standing.append(step)
    return standing


def _carried_on(derived: str, stored: Stored, steps: tuple[RoadStep, ...], library: Path | None) -> Derivation:
    """The derivation made again with all mends as a recipe of its own, hand edits kept."""
    vocabulary = load_vocabulary()
    text = mends_recipe(steps, vocabulary)
    others = tuple(source for source in laid_in(stored) if source.name != LAID)
    laid = (*others, Source(LAID, text.encode())) if text else others
    moved = set(origins(steps))
    folder = Path(derived).parent
    asked = Request(_bases(stored, folder), "", library=library, laid=laid)
    made = rederive([derived], asked, lambda item: "base" if item.what in moved else "derived").derivation
    file = made.file._replace(mends=mends_of(steps))
    return made._replace(file=file, told=made.review._replace(file=file, road=road_lines(file.mends)))
