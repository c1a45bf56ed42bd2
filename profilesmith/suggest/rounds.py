"""Scores in rounds: what the words of a text were taken for teaches what they stand for, and all is scored again."""

from math import exp

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.suggest.contrast import Contrast, find_contrast
from profilesmith.suggest.families import families
from profilesmith.suggest.ideas import BASE_SPEED, Schemas
from profilesmith.suggest.learn import Learnt, learn
from profilesmith.suggest.limits import limit_words
from profilesmith.suggest.neighbours import Neighbours
from profilesmith.suggest.relief import relieved_words
from profilesmith.suggest.score import Candidate, Scored, Strengths, score, strengths_of
from profilesmith.suggest.slot import Slot
from profilesmith.suggest.unit_habits import UnitHabits

ROUNDS = 4
SCALINGS = 8
LOWEST = -6.0  # a score below this is as good as none


class Rounds(NamedTuple):
    """For each slot its scores, how well it suits a general speed, and its settings' probabilities; and what was
    learnt.
    """

    scores: list[dict[str, Scored]]
    others: list[float]
    weights: list[dict[str, float]]
    learnt: Learnt
    habits: UnitHabits


def learn_and_score(
    slots: list[Slot], candidates: list[list[Candidate]], schemas: Schemas, stated: dict[str, float]
) -> Rounds:
    """The scores of the last round. stated: units that remarks name, with how much that counts."""
    learnt, habits = Learnt(), UnitHabits(stated)
    weights: list[dict[str, float]] = [{} for _ in slots]
    contrast = find_contrast(slots)
    limits: frozenset[str] = frozenset()
    relieved: frozenset[str] = frozenset()
    for turn in range(ROUNDS):
        near = Neighbours(slots, weights, schemas)
        scores, others, strengths = score_all(slots, candidates, learnt, habits, schemas, near, contrast)
        weights = weigh(scores)
        if turn < ROUNDS - 1:
            learnt = learn(slots, weights, schemas, learnt, relieved)
            learnt.families = families(slots, scores, strengths, schemas)
            learnt.limits = limits = limits | limit_words(slots, scores)
            learnt.relieved = relieved = relieved | relieved_words(slots, scores, schemas)
            habits = habits_of(slots, candidates, scores, weights, stated)
    return Rounds(scores, others, weights, learnt, habits)


def score_all(
    slots: list[Slot],
    candidates: list[list[Candidate]],
    learnt: Learnt,
    habits: UnitHabits,
    schemas: Schemas,
    near: Neighbours,
    contrast: Contrast,
) -> tuple[list[dict[str, Scored]], list[float], list[Strengths]]:
    """Every slot's scores, how well each suits a general speed that is no setting, and what its words stand for."""
    result, general, held = [], [], []
    for index, (slot, options) in enumerate(zip(slots, candidates, strict=True)):
        strengths = strengths_of(slot, learnt, index, schemas)
        held.append(strengths)
        around = near.around(index)
        is_paired = contrast.is_paired(index)
        scored, best, base = {}, 0.0, -99.0
        for option in options:
            name = option.schema.setting.id
            if option.schema.other:
                other = score(slot, option, strengths, habits, 0.0)
                best = max(best, other.score)
                if name == BASE_SPEED and not other.way.share:
                    base = other.score
            else:
                extra = near.bonus(name, around) + (contrast.cost(name, index) if is_paired else 0.0)
                scored[name] = score(slot, option, strengths, habits, extra)
        result.append({name: one._replace(score=one.score - best) for name, one in scored.items()} if best else scored)
        general.append(base)
    return result, general, held


def weigh(scores: list[dict[str, Scored]]) -> list[dict[str, float]]:
    """Probabilities: of one slot's settings (or none) against each other, while no setting has more than one slot.

    Rows and columns are scaled in turn (Sinkhorn and Knopp 1967): what another slot has better leaves a slot to its
    next setting, not to none.
    """
    grown = [
        {name: exp(min(scored.score, 20.0)) for name, scored in options.items() if scored.score > LOWEST}
        for options in scores
    ]
    kept: dict[str, float] = {}
    weights: list[dict[str, float]] = []
    for _ in range(SCALINGS):
        weights = []
        column: dict[str, float] = {}
        for options in grown:
            row = {name: value * kept.get(name, 1.0) for name, value in options.items()}
            total = 1.0 + sum(row.values())
            weights.append({name: value / total for name, value in row.items()})
        for row in weights:
            for name, value in row.items():
                column[name] = column.get(name, 0.0) + value
        kept = {name: kept.get(name, 1.0) / max(1.0, value) for name, value in column.items()}
    return [{name: value / max(1.0, column[name]) for name, value in row.items()} for row in weights]


def habits_of(
    slots: list[Slot],
    candidates: list[list[Candidate]],
    scores: list[dict[str, Scored]],
    weights: list[dict[str, float]],
    stated: dict[str, float],
) -> UnitHabits:
    habits = UnitHabits(stated)
    for slot, options, scored, shares in zip(slots, candidates, scores, weights, strict=True):
        for schema, ways in options:
            weight = shares.get(schema.setting.id, 0.0)
            if weight >= 0.1:
                habits.add(slot, schema, scored[schema.setting.id].way, ways, weight)
    habits.settle()
    return habits
