"""Words by the company that they keep: if ``cargo`` stands with a density, a pattern and an overlap, only infill has
those.

For every word that is not firm and stands in several keys, each idea is tried: which different settings could its keys
hold, if the word meant that, and how well would they suit? This sees what counting key by key cannot.
"""

from collections import defaultdict
from math import exp, log

from profilesmith.suggest.ideas import Schemas
from profilesmith.suggest.learn import teachable
from profilesmith.suggest.lexicon import Term
from profilesmith.suggest.score import FULL_HOLD, PROPERTY, THING, Scored, Strengths
from profilesmith.suggest.slot import AROUND, Slot

FEWEST, MOST = 2, 16  # keys with a word: fewer prove nothing, more are looked at in part
FLOOR = -3.0  # a key that no setting of an idea suits speaks against it only so much: the key may be none at all
TRUST = 0.75  # the strength of an idea that all keys agree on
DOUBT = 0.015  # for ideas that no list gives the word, against those that one does


def families(
    slots: list[Slot], scores: list[dict[str, Scored]], strengths: list[Strengths], schemas: Schemas
) -> dict[str, dict[str, float]]:
    """Word -> idea -> strength."""
    homes: dict[str, list[tuple[int, bool]]] = defaultdict(list)
    terms: dict[str, Term] = {}
    for index, slot in enumerate(slots):
        own = {term.text for term in slot.own}
        for term in teachable(slot):
            terms[term.text] = term
            homes[term.text].append((index, term.text in own))
    result = {}
    for text, places in homes.items():
        if len(places) >= FEWEST:
            ideas = _ideas_of(terms[text], places[:MOST], slots, scores, strengths, schemas)
            if ideas:
                result[text] = ideas
    return result


def _ideas_of(
    term: Term,
    places: list[tuple[int, bool]],
    slots: list[Slot],
    scores: list[dict[str, Scored]],
    strengths: list[Strengths],
    schemas: Schemas,
) -> dict[str, float]:
    offers: dict[str, list[tuple[float, int, str]]] = defaultdict(list)
    bases = {}
    for index, own in places:
        full, said = 0.0, strengths[index].parts
        gains = {thing: _gain(thing, own) for thing in (True, False)}
        for name, scored in scores[index].items():
            full += exp(min(scored.score, 12.0))
            for part in schemas.named[name].parts:
                gain = gains[part.thing] - said[part.number]
                if gain > 0.3:
                    for idea, weight in part.choices:
                        if weight == 1.0:
                            offers[idea].append((scored.score + gain, index, name))
        bases[index] = log(1.0 + full)
    totals = {"": 0.0}
    for idea, options in offers.items():
        total = _total(options, bases)
        totals[idea] = total + log(max(term.ideas.get(idea, 0.0), DOUBT) if term.ideas else DOUBT * 2)
    top = max(totals.values())
    grown = {idea: exp(total - top) for idea, total in totals.items()}
    whole = sum(grown.values())
    return {idea: TRUST * value / whole for idea, value in grown.items() if idea and value / whole >= 0.1}


def _gain(thing: bool, own: bool) -> float:
    hold = TRUST * (1.0 if own else AROUND)
    return (THING if thing else PROPERTY) * log(1 + 20 * hold) / FULL_HOLD


def _total(options: list[tuple[float, int, str]], bases: dict[int, float]) -> float:
    """How much better the keys are explained, each by a setting of its own; the best pairs first."""
    taken: set[str] = set()
    total, left = 0.0, dict(bases)
    for score, index, name in sorted(options, key=lambda option: (-option[0], option[1], option[2])):
        if index in left and name not in taken:
            taken.add(name)
            base = left.pop(index)
            total += max(FLOOR, log(1.0 + exp(min(score, 12.0))) - base)
    return total + FLOOR * 0.5 * len(left)
