"""Words that mark limits in one text: whatever stands with them is far above what the text sets, of several kinds at
once.

``edge.heat[tip] = 250``, ``edge.go = 300 mm/s``: nobody lists "edge" as a limit, but a nozzle, a bed and a speed that
all lie above everything else of their kind can be nothing else. Common practice, no source.
"""

from collections import defaultdict
from collections.abc import Mapping, Sequence

from profilesmith.foundation.quantity import UNITS
from profilesmith.suggest.lexicon import Term
from profilesmith.suggest.score import Scored
from profilesmith.suggest.slot import Slot

# How far above the highest of the others a limit lies. A first layer's heat is above the others' too, but not so far.
FAR = {"nozzle": 1.06, "bed": 1.25, "speed": 1.1, "acceleration": 1.1}
FEWEST, HOT = 2, frozenset({"nozzle", "bed"})  # kinds that a word must stand with, one of them a heat
MOST_OF_A_KIND = 1  # limits that a text has of one kind
LIMITED = frozenset({"temperature", "speed", "acceleration", "nozzle", "bed", "filament", "print"})
LIKELY = -1.0  # a score that makes a key look like its best setting


def limit_words(slots: Sequence[Slot], scores: Sequence[dict[str, Scored]]) -> frozenset[str]:
    """The words, as terms write them."""
    values: dict[str, list[tuple[float, frozenset[str]]]] = defaultdict(list)
    for slot, options in zip(slots, scores, strict=True):
        name = max(options, key=lambda setting: options[setting].score, default="")
        kind = _kind(name)
        if not kind or slot.number is None or options[name].score < LIKELY or options[name].way.share:
            continue
        unit = UNITS.get(options[name].way.unit)
        words = _marks(slot)
        values[kind].append((float(unit.to_canonical(slot.number) if unit else slot.number), words))
    high: dict[str, set[str]] = defaultdict(set)
    low: set[str] = set()
    for kind, rows in values.items():
        for word in frozenset().union(*(words for _, words in rows)):
            mine = [value for value, words in rows if word in words]
            others = [value for value, words in rows if word not in words]
            if others and len(mine) <= MOST_OF_A_KIND and min(mine) >= FAR[kind] * max(others):
                high[word].add(kind)
            elif others:
                low.add(word)
    return frozenset(word for word, kinds in high.items() if len(kinds) >= FEWEST and kinds & HOT and word not in low)


def _marks(slot: Slot) -> frozenset[str]:
    """The words that are neither what is limited nor the limited thing, or leave another word that says so."""
    terms = (*slot.own, *slot.around)
    sayers: dict[str, set[str]] = defaultdict(set)  # of each idea that can be limited, the words that say it
    for term in terms:
        for idea in LIMITED & term.ideas.keys():
            sayers[idea].add(term.text)
    return frozenset(term.text for term in terms if not (term.firm or term.small) and _spared(term, sayers))


def _spared(term: Term, sayers: Mapping[str, set[str]]) -> bool:
    return all(sayers[idea] - {term.text} for idea in LIMITED & term.ideas.keys())


def _kind(name: str) -> str:
    """The kinds that are compared: heats of the nozzle and of the bed apart, and speeds of the head."""
    if name.endswith(".speed"):
        return "" if name == "retraction.speed" else "speed"
    return {
        "nozzle.temperature": "nozzle",
        "first_layer.nozzle_temperature": "nozzle",
        "bed.temperature": "bed",
        "first_layer.bed_temperature": "bed",
    }.get(name, "acceleration" if name.endswith("acceleration") else "")
