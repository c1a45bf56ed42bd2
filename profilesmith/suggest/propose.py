"""From slots to the most likely slot of every setting: score, learn the text's own words, score again, assign.

Comes in: documents. Goes out: a ProposedReading with every score that the judging of certainty needs.
"""

from collections.abc import Callable, Mapping, Sequence

from profilesmith.facts.facts import Facts
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.suggest.agreement import agree, without_base
from profilesmith.suggest.assign import assign, regrets
from profilesmith.suggest.base_speed import find_base, named_base, shares_implied
from profilesmith.suggest.detect_habits import Writing
from profilesmith.suggest.detect_lists import Lists
from profilesmith.suggest.ideas import Schemas, load_schemas
from profilesmith.suggest.key_words import split_words
from profilesmith.suggest.known_facts import with_facts
from profilesmith.suggest.learn import Learnt
from profilesmith.suggest.lexicon import Lexicon
from profilesmith.suggest.rounds import learn_and_score
from profilesmith.suggest.score import Candidate, Scored
from profilesmith.suggest.sift import likeliest
from profilesmith.suggest.slot import Slot
from profilesmith.suggest.slots import find_slots
from profilesmith.suggest.stated import base_words, stated_units
from profilesmith.suggest.surroundings import Surroundings
from profilesmith.suggest.unit_habits import UnitHabits
from profilesmith.suggest.values import Way, find_fits
from profilesmith.text.document import Document

ROUNDS = 4
LANGUAGE_SAMPLE = 20_000  # letters of a text that show its language
LOWEST = -6.0  # a score below this is as good as none
BAR = -3.5  # what a score must reach for a key to be proposed at all
WIDEST = 14  # slots that are looked at for one setting in the assignment


class ProposedReading(NamedTuple):
    """scores: for each slot, setting -> score. chosen: setting -> slot. weights: for each slot, setting -> probability.

    candidates: for each slot the settings whose kind and range its value allows, with all ways of reading it.
    regrets: for each setting its slot and what keeping the two apart costs all settings together; far_regrets: the same
    where keys that look like none of the settings may take part.
    """

    slots: list[Slot]
    lists: Lists
    schemas: Schemas
    scores: list[dict[str, Scored]]
    weights: list[dict[str, float]]
    chosen: dict[str, int]
    learnt: Learnt
    habits: UnitHabits
    stated: dict[str, float]
    base: int | None
    ways: dict[str, Way]
    odd: dict[str, str]
    candidates: list[list[Candidate]]
    regrets: dict[str, tuple[int, float]]
    far_regrets: dict[str, tuple[int, float]]


def propose(
    documents: tuple[Document, ...],
    writing: Writing,
    lexicon: Lexicon,
    facts: Facts,
    left_alone: Callable[[str, str], bool] = lambda section, key: False,
) -> ProposedReading:
    """The whole reading of some documents. left_alone: whether a section's key is known to hold no setting."""
    schemas = load_schemas()
    lexicon = lexicon.for_words(word for document in documents for word in split_words(document.text[:LANGUAGE_SAMPLE]))
    held, lists = find_slots(documents, writing, lexicon)
    slots = [slot for slot in held if not left_alone(*slot.place[:2])]
    remarks = _head_remarks(documents, writing, lexicon)
    stated = _stated(remarks, slots, lexicon)
    slots = likeliest(slots, schemas)
    candidates = [_candidates(slot, schemas, lexicon, facts, stated) for slot in slots]
    scores, others, weights, learnt, habits = learn_and_score(slots, candidates, schemas, stated)
    chosen, base, ways = _choose(slots, scores, others, remarks, lexicon)
    if base is None:
        ways = without_base(chosen, slots, candidates, ways, habits)
    agreed = agree(chosen, slots, candidates, ways, habits)
    return ProposedReading(
        slots,
        lists,
        schemas,
        scores,
        weights,
        chosen,
        learnt,
        habits,
        stated,
        base,
        agreed.ways,
        agreed.odd,
        candidates,
        regrets(_rows(scores, base, 0.0)),
        regrets(_rows(scores, base)),
    )


def _stated(remarks: list[str], slots: Sequence[Slot], lexicon: Lexicon) -> dict[str, float]:
    """What remarks and values say of units, for the whole text."""
    stated = stated_units(remarks, lexicon)
    if any(slot.share and slot.unit is not None and slot.unit.name == "%" for slot in slots):
        # Shares are written as such: what has no sign is none, whatever a remark says of shares.
        stated = {name: bonus for name, bonus in stated.items() if not name.startswith("share:")}
    if shares_implied(slots):
        stated["share:speed"] = 1.0
    return stated


def _candidates(
    slot: Slot, schemas: Schemas, lexicon: Lexicon, facts: Facts, stated: Mapping[str, float]
) -> list[Candidate]:
    candidates = [Candidate(*fit) for fit in find_fits(slot, schemas, lexicon, stated)]
    return with_facts(slot, candidates, facts) if facts else candidates


def _head_remarks(documents: tuple[Document, ...], writing: Writing, lexicon: Lexicon) -> list[str]:
    return [text for document in documents for text in Surroundings(document, writing.habits, lexicon).head_remarks()]


def _choose(
    slots: list[Slot], scores: list[dict[str, Scored]], others: list[float], remarks: list[str], lexicon: Lexicon
) -> tuple[dict[str, int], int | None, dict[str, Way]]:
    """Setting -> slot, the slot of a general speed that others are shares of, and how each chosen number is read."""
    base = named_base(slots, base_words(remarks, lexicon))
    for _ in range(2):
        chosen = assign(_rows(scores, base))
        ways = {name: scores[index][name].way for name, index in chosen.items()}
        if base is not None:
            break
        base = find_base(slots, others, chosen, ways, remarks)
        if base is None or base not in chosen.values():
            break
    return chosen, base, ways


def _rows(scores: list[dict[str, Scored]], base: int | None, bar: float = BAR) -> dict[str, dict[int, float]]:
    """The scores that the assignment is made of; a general speed is no setting's. bar: what is worth no key at all."""
    rows: dict[str, dict[int, float]] = {}
    for index, options in enumerate(scores):
        if index == base:
            continue
        for name, scored in options.items():
            if scored.score > bar:
                rows.setdefault(name, {})[index] = scored.score - bar
    return {
        name: dict(sorted(columns.items(), key=lambda item: (-item[1], item[0]))[:WIDEST])
        for name, columns in rows.items()
    }
