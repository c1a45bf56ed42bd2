"""Mend: what to change after a print, and the mended texts, whose ledger carries the road on."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from profilesmith.engine.read import Ingredients
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.ledger.history import Grade, Verdict
from profilesmith.ledger.read import Stored
from profilesmith.mend.advise import Advice, advise
from profilesmith.mend.bench import Bench, aims, bench_of, cannot_be
from profilesmith.mend.closed import Closed, closed_causes
from profilesmith.mend.costs import Costs, costs_of
from profilesmith.mend.noisy_or import World
from profilesmith.mend.proposal import MendProposal, proposals, step_changes
from profilesmith.mend.road import RoadChange, RoadStep, origins, road_of, standing
from profilesmith.mend.so_far import SoFar, so_far
from profilesmith.mend.troubles import Knowledge
from profilesmith.profile.profile import Profile
from profilesmith.recipe.apply_recipes import apply_recipes
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
    """derived: the file's name. advice: all that is proposed, the first first; chosen: what is written.

    changes: all that is written, with what goes along; costs: of them together. closed: where little speaks for any
    change, the causes of what was seen and what stands in their way.
    """

    derived: str
    so_far: SoFar
    advice: Advice
    proposals: tuple[MendProposal, ...]
    chosen: tuple[MendProposal, ...]
    bench: Bench
    stored: Stored
    steps: tuple[RoadStep, ...]
    changes: tuple[RoadChange, ...] = ()
    costs: Costs = Costs()
    closed: tuple[Closed, ...] = ()


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
    refuse_if(_too_early(steps, said, derived))
    names = _asked_after(known, steps, said)
    base = given.translation.profile
    bench = bench_of(known, now, base, given.recipes, given.facts, given.answers, vocabulary, names)
    cannot = cannot_be(known, given.facts, base, vocabulary)
    world, room = World(known, cannot), bench.room(origins(steps))
    past = so_far(steps, bench, known, said.seen, said.looks, said.did, said.last, said.rest_good)
    advice = advise(world, past.prints, room, past.worse)
    is_bad = any(grade != "good" for grade in past.seen.values())
    proposed = proposals(world, advice, past, bench, origins(steps), vocabulary) if is_bad else ()
    chosen = _chosen(world, advice, past, bench, steps, proposed, said.changes)
    changes = step_changes(chosen, bench, vocabulary, known, origins(steps))
    costs = _costs(now, given, steps, changes) if chosen else Costs()
    stuck = is_bad and (advice.unlikely or not proposed)
    closed = closed_causes(known, past, room, now.entries, cannot) if stuck else ()
    return Mended(derived, past, advice, proposed, chosen, bench, stored, steps, changes, costs, closed)


def _too_early(steps: Sequence[RoadStep], said: Said, derived: str) -> list[Problem]:
    """A verdict on a mend where none was made."""
    if not said.last or any(step.changes for step in steps):
        return []
    hint = "Say only what this print showed, write the mend into a new file, print that, and judge it on that file."
    return [Problem("no-mend", "Nothing was mended yet, so no mend can be judged.", Place(derived), hint)]


def _costs(now: Profile, given: Ingredients, steps: Sequence[RoadStep], changes: Sequence[RoadChange]) -> Costs:
    """What the changes cost, with all that the recipes move along with them."""
    base, standing_now = given.translation.profile, {name: item.after for name, item in standing(steps).items()}
    sides = (standing_now, standing_now | {item.setting: item.after for item in changes})
    before, after = (
        apply_recipes(
            base, [*given.recipes, aims(side, load_vocabulary())], given.facts, given.answers, load_vocabulary()
        )
        for side in sides
    )
    entries = {
        name: entry
        for name, entry in after.derived.entries.items()
        if name in now.entries and before.derived.values(name) != entry.values
    }
    return costs_of(base, now, now._replace(entries={**now.entries, **entries}), given.facts)


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
    proposed: Sequence[MendProposal],
    wanted: int,
) -> tuple[MendProposal, ...]:
    """The first proposal that is a setting, and up to ``wanted`` in all: each further one is the best beside those
    before.
    """
    first = next((item for item in proposed if not item.do), None)
    chosen = [] if first is None else [first]
    while chosen and len(chosen) < wanted:
        made = [change for item in chosen for change in item.option.changes]
        more = advise(world, past.prints, bench.room(origins(steps)), past.worse, advice.guesses, made)
        listed = proposals(world, more, past, bench, origins(steps), load_vocabulary())
        named = {move.setting for item in chosen for move in item.moves}
        others = (item for item in (*listed, *proposed) if named.isdisjoint(move.setting for move in item.moves))
        further = next((item for item in others if not item.do), None)
        if further is None:
            break
        chosen.append(further)
    return tuple(chosen)
