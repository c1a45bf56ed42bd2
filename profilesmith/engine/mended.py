"""The mended texts: a road that goes on, or back, as a recipe of this profile alone, and in the ledger."""

from __future__ import annotations

from collections.abc import Sequence

from profilesmith.engine.derive import Derivation
from profilesmith.engine.derived_file import laid_in
from profilesmith.engine.mend import Mended, Said, road_in
from profilesmith.engine.read import Source
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused
from profilesmith.ledger import Decision
from profilesmith.ledger.read import Stored
from profilesmith.mend.as_rules import LAID, mends_recipe
from profilesmith.mend.road import RoadStep, mends_of, origins
from profilesmith.merge.decision import Choose
from profilesmith.review.road import road_lines
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


def mended_road(mended: Mended, said: Said) -> tuple[RoadStep, ...]:
    """The road with what is changed now. Raises Refused where nothing is."""
    if not mended.chosen and not said.last:
        hint = "Nothing of it is a setting here: do what it says, print again, and say what you saw."
        raise Refused([Problem("no-mend", "There is no setting to change.", Place(mended.derived), hint)])
    step = RoadStep(mended.so_far.said, said.looks, mended.changes, said.did, said.last, False, said.date)
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
    return made._replace(file=file, worded=made.review._replace(file=file, road=road_lines(file.mends)))
