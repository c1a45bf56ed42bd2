"""A text teaches its own words: if everything with ``trestle`` in it looks like support, ``trestle`` is support here.

Words that the languages know for certain are left alone. What a slot itself contributed is not counted for it.
"""

from collections import defaultdict

from profilesmith.suggest.ideas import Schema, Schemas
from profilesmith.suggest.lexicon import Term
from profilesmith.suggest.slot import Slot

PICTURE_TRUST, UNKNOWN_TRUST = 1.6, 1.0  # how many keys' worth the lexicon's own view of a word counts
LOWEST = 0.06


class Learnt:
    """What each word that is not firm has been taken for, by slot."""

    def __init__(self) -> None:
        self.total: dict[str, dict[str, float]] = {}
        self.mass: dict[str, float] = {}
        self.own: dict[tuple[int, str], tuple[dict[str, float], float]] = {}
        self.families: dict[str, dict[str, float]] = {}
        self.limits: frozenset[str] = frozenset()
        self.relieved: frozenset[str] = frozenset()

    def decoy(self, term: Term, ideas: frozenset[str] = frozenset()) -> float:
        """How much a word speaks against any setting in this text; against one of such ideas: a "trip" is a travel."""
        if term.firm or term.text in self.relieved:
            return 0.0
        if term.text in self.limits:
            return 1.0
        return term.decoy if ideas.isdisjoint(term.ideas) else 0.0

    def ideas(self, term: Term, index: int) -> dict[str, float]:
        """What a word stands for in one slot, as the other slots have it."""
        if term.firm:
            return dict(term.ideas)
        family = self.families.get(term.text, {})
        if term.text not in self.total:
            return {**term.ideas, **family}
        own, own_mass = self.own.get((index, term.text), ({}, 0.0))
        trust = PICTURE_TRUST if term.ideas else UNKNOWN_TRUST
        mass = max(self.mass[term.text] - own_mass, 0.0)
        total = self.total[term.text]
        result = {}
        for idea in {*term.ideas, *total, *family}:
            seen = max(total.get(idea, 0.0) - own.get(idea, 0.0), 0.0)
            strength = max((trust * term.ideas.get(idea, 0.0) + seen) / (trust + mass), family.get(idea, 0.0))
            if strength >= LOWEST:
                result[idea] = strength
        return result


def learn(
    slots: list[Slot],
    weights: list[dict[str, float]],
    schemas: Schemas,
    before: Learnt,
    relieved: frozenset[str] = frozenset(),
) -> Learnt:
    """New meanings from how likely each slot is each setting.

    weights: for each slot, setting -> probability; relieved: words that warn of nothing in this text.
    """
    learnt = Learnt()
    total: dict[str, dict[str, float]] = defaultdict(lambda: defaultdict(float))
    mass: dict[str, float] = defaultdict(float)
    for index, (slot, shares) in enumerate(zip(slots, weights, strict=True)):
        soft = teachable(slot, relieved)
        if not soft:
            continue
        own: dict[str, dict[str, float]] = {term.text: defaultdict(float) for term in soft}
        for name, weight in shares.items():
            if weight >= 0.05:
                _share_out(slot, index, soft, schemas.named[name], weight, own, before)
        covered = sum(shares.values())
        for term in soft:
            for idea, amount in own[term.text].items():
                total[term.text][idea] += amount
            mass[term.text] += covered
            learnt.own[index, term.text] = (dict(own[term.text]), covered)
    learnt.total = {text: dict(ideas) for text, ideas in total.items()}
    learnt.mass = dict(mass)
    return learnt


def teachable(slot: Slot, relieved: frozenset[str] = frozenset()) -> list[Term]:
    """The words of a slot that a text can give a meaning: those that are not firm and warn of nothing."""
    seen: dict[str, Term] = {}
    for term in (*slot.own, *slot.around):
        if not term.firm and not term.small and (term.decoy < 1 or term.text in relieved):
            seen.setdefault(term.text, term)
    return list(seen.values())


def _share_out(
    slot: Slot,
    index: int,
    soft: list[Term],
    schema: Schema,
    weight: float,
    own: dict[str, dict[str, float]],
    before: Learnt,
) -> None:
    """Give each part of a setting that no firm word says to the soft words that may say it."""
    firm = {idea for term in (*slot.own, *slot.around) if term.firm for idea in term.ideas}
    for part in schema.parts:
        if any(idea in firm and strength == 1.0 for idea, strength in part.choices):
            continue
        main = part.choices[0][0]
        holds = []
        for term in soft:
            known = before.ideas(term, index)
            hold = max((known.get(idea, 0.0) for idea, _ in part.choices), default=0.0)
            others = max(
                (strength for idea, strength in known.items() if idea not in {i for i, _ in part.choices}), default=0.0
            )
            holds.append((term.text, hold + 0.12 * (1 - min(others, 1.0))))
        full = sum(hold for _, hold in holds)
        for text, hold in holds:
            if full > 0:
                own[text][main] += weight * hold / full * min(1.0, 4 * hold)
