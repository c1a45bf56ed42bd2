"""How well a slot suits a setting: its words, the words around it, its value, and what the text has taught so far.

All scores are logarithms of odds against "this key is none of the settings", added up.
"""

from functools import cache
from math import log

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.suggest.ideas import TELLING, IdeaPart, Schema, Schemas
from profilesmith.suggest.learn import Learnt
from profilesmith.suggest.lexicon import Term
from profilesmith.suggest.slot import Slot
from profilesmith.suggest.unit_habits import UnitHabits
from profilesmith.suggest.values import Fit, Way

# What a fully matched idea is worth, and what it costs to leave one out.
THING, PROPERTY = 3.3, 2.5
NO_THING, NO_PROPERTY, NO_OPTION = -2.3, -1.4, -0.35
# What words cost that a setting does not explain.
STRAY_TELLING, STRAY_FIRM, STRAY_PICTURE, STRAY_UNKNOWN = -3.0, -2.3, -1.0, -0.35
DECOY, LIMIT = -8.0, -3.5
LEAST_HOLD = 0.05  # less than this is no hold on an idea
DESCRIBED = 0.4  # what such words cost a switch: its remark may describe the thing ("flat, one layer thick")
NONE = 3.0  # the odds that a key must beat to be anything at all
RARE, NOT_SAID = -1.5, -6.0


class Candidate(NamedTuple):
    """A setting for a slot. ways: all readings that are possible, with their fits."""

    schema: Schema
    ways: list[Fit]


class Scored(NamedTuple):
    """A score, and the reading that gave it. lexical: the part that words have in it; missing: ideas left out."""

    score: float
    way: Way
    lexical: float
    gain: float
    missing: int


class Strengths(NamedTuple):
    """What a slot's words stand for.

    parts: for each part of the schemas what the words give it, or cost without it. lacking: those that are left out.
    strays: ideas of words that a setting must explain, what it costs when it does not, and whether that is a limit's
    word.
    decoys: how much single words speak against any setting that does not claim them, and the ideas by which one may.
    """

    parts: list[float]
    lacking: list[bool]
    strays: tuple[tuple[frozenset[str], float], ...]
    decoys: tuple[tuple[float, frozenset[str]], ...]

    @property
    def decoy(self) -> float:
        """The strongest of them, claimed or not."""
        return max((against for against, _ in self.decoys), default=0.0)


def strengths_of(slot: Slot, learnt: Learnt, index: int, schemas: Schemas) -> Strengths:
    """The ideas of a slot's words, the key's own before those around it."""
    ideas: dict[str, float] = {}
    strays = []
    decoys = []
    for _, terms, weight, stray in slot.words:
        for term in terms:
            if term.small and not term.ideas:
                continue
            known = learnt.ideas(term, index)
            for idea, strength in (*known.items(), *term.lent.items()):
                if strength * weight > ideas.get(idea, 0.0):
                    ideas[idea] = strength * weight
            if stray:
                cost = _stray_cost(term, known) * stray
                strays.append((frozenset(known), cost))
                if term.firm and len(known) > 1:  # a word of the trade in a sense that it has elsewhere
                    strays.append((frozenset(idea for idea, hold in known.items() if hold >= 1.0), 0.35 * cost))
            against = learnt.decoy(term)
            if against:
                claims = frozenset() if term.text in learnt.limits else frozenset(term.ideas)
                decoys.append((against * (1.0 if stray == 1 else 0.8 if stray else 0.5), claims))
    gains, lacking = _parts(ideas, schemas)
    return Strengths(gains, lacking, tuple(strays), tuple(decoys))


def _parts(ideas: dict[str, float], schemas: Schemas) -> tuple[list[float], list[bool]]:
    """What the ideas of a slot give each part, or what it costs to leave that out; most parts are left out."""
    costs, left_out = _nothing_said(schemas.parts)
    gains, lacking = costs.copy(), left_out.copy()
    holds: dict[int, float] = {}
    for idea, strength in ideas.items():
        for part, weight in schemas.saying.get(idea, ()):
            hold = strength * weight
            if hold > LEAST_HOLD and hold > holds.get(part.number, 0.0):
                holds[part.number] = hold
                gains[part.number] = (THING if part.thing else PROPERTY) * log(1 + 20 * hold) / FULL_HOLD
                lacking[part.number] = False
    return gains, lacking


@cache
def _nothing_said(parts: tuple[IdeaPart, ...]) -> tuple[list[float], list[bool]]:
    costs = [NO_OPTION if part.optional or part.unsaid else NO_THING if part.thing else NO_PROPERTY for part in parts]
    return costs, [not part.optional for part in parts]


def _stray_cost(term: Term, known: dict[str, float]) -> float:
    if term.small:
        return 0.0
    if not known:
        return STRAY_UNKNOWN
    if not term.firm:
        return STRAY_PICTURE
    return STRAY_TELLING if TELLING & known.keys() else STRAY_FIRM


def score(slot: Slot, candidate: Candidate, strengths: Strengths, habits: UnitHabits, extra: float) -> Scored:
    """The best reading of a slot as a setting."""
    schema = candidate.schema
    lexical, missing = _words(schema, strengths, slot)
    best, way, gain = -99.0, candidate.ways[0].way, 0.0
    priors = habits.of_slot(slot, schema)
    for possible, fit in candidate.ways:
        value = 0.85 * fit + priors[possible]
        if value > best:
            best, way, gain = value, possible, fit
    return Scored(lexical + best + extra - NONE, way, lexical, gain, missing)


def _words(schema: Schema, strengths: Strengths, slot: Slot) -> tuple[float, int]:
    total, missing = 0.0, 0
    says_kind = schema.setting.kind in slot.kinds
    alone = says_kind and schema.setting.kind in LONELY_UNITS
    for part in schema.parts:
        if strengths.lacking[part.number]:
            if alone:
                missing += part.thing
                total -= 0.5
                continue
            if not part.thing and says_kind and schema.setting.kind in TELLING_UNITS:
                total -= 0.2
                continue
            missing += 1
        total += strengths.parts[part.number]
    if schema.rare:
        total += NOT_SAID if missing else RARE
    described = DESCRIBED if schema.setting.kind == "switch" and slot.switch else 1.0
    for known, cost in strengths.strays:
        if known.isdisjoint(schema.ideas):
            total += cost + LIMIT if "most" in known else cost * described
    if strengths.decoys:
        against = max(cost if claims.isdisjoint(schema.ideas) else 0.0 for cost, claims in strengths.decoys)
        total += DECOY * against * (ALONE if alone else 1.0)
    return total, missing


# A written unit of these kinds says what the key's words leave out; lengths and ratios are too many things.
TELLING_UNITS = frozenset({"speed", "acceleration", "temperature", "angle", "duration", "flow"})
LONELY_UNITS = frozenset({"flow"})  # kinds that one setting alone has
ALONE = 0.25  # how much words that warn count against it: it is a limit itself
FULL_HOLD = log(21)
