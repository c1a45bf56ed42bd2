"""Words that warn elsewhere and are pictures here: with a density, a pattern, a speed and an overlap, a "block" is no
script.

Limits never get this relief, nor sensors: what they hold looks like settings by nature.
"""

from collections import defaultdict
from collections.abc import Sequence
from functools import cache

from profilesmith.suggest.ideas import Schemas
from profilesmith.suggest.key_words import fold
from profilesmith.suggest.lexicon import Term
from profilesmith.suggest.load_lexicon import phrases
from profilesmith.suggest.score import DECOY, Scored
from profilesmith.suggest.slot import Slot
from profilesmith.vocabulary.load_vocabulary import knowledge

FEWEST = 3  # settings of one thing that a word's keys look like
LIKELY = -3.0  # the score that counts, without the warning
THINGS = frozenset({"infill", "support", "raft", "retraction", "fan"})  # those that have settings enough to be known by
NEVER = ("limits", "sensing")


def relieved_words(slots: Sequence[Slot], scores: Sequence[dict[str, Scored]], schemas: Schemas) -> frozenset[str]:
    """The words, as terms write them."""
    by_word: dict[str, dict[str, set[str]]] = defaultdict(lambda: defaultdict(set))
    for slot, options in zip(slots, scores, strict=True):
        warned = {
            term.text: here
            for here, terms in ((1.0, slot.own), (0.8, slot.around))
            for term in terms
            if _may_be_relieved(term)
        }
        if len(warned) != 1:
            continue
        word, weight = warned.popitem()
        for name, one in options.items():
            if (
                name.partition(".")[0] in THINGS
                and one.score - DECOY * weight > LIKELY
                and one.missing <= 1
                and _says_property(name, slot, schemas)
            ):
                by_word[word][name.partition(".")[0]].add(name)
    return frozenset(word for word, things in by_word.items() if max(len(names) for names in things.values()) >= FEWEST)


def _may_be_relieved(term: Term) -> bool:
    return term.decoy >= 1 and not term.firm and fold(term.text) not in _never()


def _says_property(name: str, slot: Slot, schemas: Schemas) -> bool:
    """Whether words of the key say what is set, whatever it is set of."""
    ideas = {idea for term in slot.own if not term.small for idea in term.ideas}
    return all(
        part.thing or part.optional or any(idea in ideas for idea, _ in part.choices)
        for part in schemas.named[name].parts
    )


@cache
def _never() -> frozenset[str]:
    groups = knowledge("decoys.toml")["strong"]
    return frozenset(phrase for name in NEVER for phrase in phrases(groups[name]))
