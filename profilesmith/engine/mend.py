"""Mend: what to change after a print, and the mended texts, whose ledger carries the road on."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from profilesmith.engine.derive import Derivation
from profilesmith.engine.derived_file import laid_in
from profilesmith.engine.read import Ingredients
from profilesmith.engine.source import Source
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.ledger import Decision
from profilesmith.ledger.mends import Grade, Verdict
from profilesmith.ledger.read import Stored
from profilesmith.mend.advise import Advice, advise
from profilesmith.mend.as_rules import LAID, mends_recipe
from profilesmith.mend.belief import World
from profilesmith.mend.bench import Bench, bench_of, cannot_be
from profilesmith.mend.proposal import Proposal, proposals, step_changes
from profilesmith.mend.road import RoadStep, mends_of, origins, road_of
from profilesmith.mend.so_far import SoFar, so_far
from profilesmith.mend.troubles import Knowledge
from profilesmith.merge.decision import Choose
from profilesmith.profile.profile import Profile
from profilesmith.review.road import road_lines
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


class Said(NamedTuple):
    """What the maker says. seen: trouble -> grade; looks: sign -> yes or no; did: doings done before this print.

    rest_good: all other troubles were looked for, and were not there. changes: how many at once. date: of the day.
    """

    seen: Mapping[str, Grade] = {}
    looks: Mapping[str, bool] = {}
    did: tuple[str, ...] = ()
    last: Verdict = ""
    rest_good: bool = False
    changes: int = 1
    date: str = ""


class Mended(NamedTuple):
    """derived: the file's name. advice: all that is proposed, the first first; chosen: what is written."""

    derived: str
    so_far: SoFar
    advice: Advice
    proposals: tuple[Proposal, ...]
    chosen: tuple[Proposal, ...]
    bench: Bench
    stored: Stored
    steps: tuple[RoadStep, ...]


def road_in(stored: Stored, derived: str) -> tuple[RoadStep, ...]:
    """The road of a ledger. Raises Refused for one that is damaged."""
    try:
        return road_of(stored.file.mends, load_vocabulary())
    except (ValueError, KeyError) as error:
        hint = "Derive again, or put the ledger back as it was."
        problem = Problem("bad-ledger", "The ledger's road of mends is damaged.", Place(derived), hint)
        raise Refused([problem]) from error


def mend(derived: str, stored: Stored, now: Profile, given: Ingredients, said: Said, known: Knowledge) -> Mended:
    """What to change next. now: the derived texts as they read; given: what they were derived from. Raises Refused."""
    refuse_if(stored.ledger.problems)
    steps, vocabulary = road_in(stored, derived), load_vocabulary()
    names = _asked_after(known, steps, said)
    base = given.translation.profile
    bench = bench_of(known, now, base, given.recipes, given.facts, given.answers, vocabulary, names)
    world = World(known, cannot_be(known, given.facts, base, vocabulary))
    past = so_far(steps, bench, known, said.seen, said.looks, said.did, said.last, said.rest_good)
    advice = advise(world, past.prints, bench.room(origins(steps)), past.worse)
    is_bad = any(grade != "good" for grade in past.seen.values())
    found = proposals(world, advice, past, bench, origins(steps), vocabulary) if is_bad else ()
    chosen = _chosen(world, advice, past, bench, steps, found, said.changes)
    return Mended(derived, past, advice, found, chosen, bench, stored, steps)


def _asked_after(known: Knowledge, steps: Sequence[RoadStep], said: Said) -> set[str]:
    """The settings that may help with any trouble that was ever seen, and those that were moved."""
    seen = {
        name for item in (*(step.seen for step in steps), said.seen) for name, grade in item.items() if grade != "good"
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
    """The first proposal that is a setting, and up to ``wanted`` in all: each further one is the best beside those
    before.
    """
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


def mended_road(mended: Mended, said: Said) -> tuple[RoadStep, ...]:
    """The road with what is changed now. Raises Refused where nothing is."""
    if not mended.chosen and not said.last:
        hint = "Nothing of it is a setting here: do what it says, print again, and say what you saw."
        raise Refused([Problem("no-mend", "There is no setting to change.", Place(mended.derived), hint)])
    changes = step_changes(mended.chosen, mended.bench, load_vocabulary())
    step = RoadStep(mended.so_far.seen, said.looks, changes, said.did, said.last, False, said.date)
    return (*mended.steps, step)


def road_back(derived: str, stored: Stored, said: Said) -> tuple[RoadStep, ...]:
    """The road with the last mend taken back. Raises Refused where there is none."""
    steps = road_in(stored, derived)
    standing = undoable(steps)
    if not standing:
        raise Refused([Problem("no-mend", "There is no mend to undo.", Place(derived), "Mend it first.")])
    changes = tuple(item._replace(before=item.after, after=item.before) for item in reversed(standing[-1].changes))
    return (*steps, RoadStep({}, {}, changes, (), said.last, True, said.date))


def undoable(steps: Sequence[RoadStep]) -> list[RoadStep]:
    """The steps that changed something and were not taken back, the last one last."""
    standing: list[RoadStep] = []
    for step in steps:
        if step.undo:
            standing = standing[:-1]
        elif step.changes:
            standing.append(step)
    return standing


def laid_for(stored: Stored, steps: tuple[RoadStep, ...]) -> tuple[Source, ...]:
    """The recipes of this profile alone, all mends of a road as one of them: what is to be derived with again."""
    text = mends_recipe(steps, load_vocabulary())
    others = tuple(source for source in laid_in(stored) if source.name != LAID)
    return (*others, Source(LAID, text.encode())) if text else others


def mends_first(steps: tuple[RoadStep, ...]) -> Choose:
    """Who counts where both sides changed: a mend goes before a hand, a hand before all else."""
    moved = set(origins(steps))

    def choose(decision: Decision) -> str:
        return "base" if decision.what in moved else "derived"

    return choose


def with_road(made: Derivation, steps: tuple[RoadStep, ...]) -> Derivation:
    """What was derived again, with the road in its ledger and its review."""
    file = made.file._replace(mends=mends_of(steps))
    return made._replace(file=file, told=made.review._replace(file=file, road=road_lines(file.mends)))
