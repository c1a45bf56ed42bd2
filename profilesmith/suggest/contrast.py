"""Two keys of which one is the other with a word more: ``heat`` and ``heat opening``, ``T`` and ``T_0``.

The plain one holds what is always so, the other one a special case of it, whatever its word may be.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.suggest.lexicon import Term
from profilesmith.suggest.slot import Slot

GENERAL = frozenset(
    [
        "nozzle.temperature",
        "bed.temperature",
        "layer.height",
        "bead.width",
        "print.acceleration",
        "fan.power",
        "retraction.distance",
    ]
)
SPECIAL = {
    "outer_wall.bead_width": "outer",
    "outer_wall.acceleration": "outer",
    "travel.acceleration": "travel",
    "fan.minimum_power": "least",
    "bridge.fan": "bridge",
}
PLAIN_AS_SPECIAL, SPECIAL_AS_PLAIN = -2.5, -1.5
SAYS, MOST_APART = 0.4, 2  # how plainly a word says that a layer is the first; words by which siblings differ
MOST = 400  # slots of a text that is looked at in pairs


class Contrast(NamedTuple):
    """plain: for each slot that has a special case the ideas that the special word may stand for, None for any;
    special: those cases.
    """

    plain: Mapping[int, tuple[frozenset[str] | None, ...]]
    special: frozenset[int]

    def is_paired(self, index: int) -> bool:
        """Whether a slot is one of a pair: all others cost nothing."""
        return index in self.special or index in self.plain

    def cost(self, name: str, index: int) -> float:
        """What it costs to take a slot for a setting: a plain one for a special case, or a special case for a plain
        one.
        """
        if name in GENERAL:
            return SPECIAL_AS_PLAIN if index in self.special else 0.0
        idea = "first" if name.startswith("first_layer.") else SPECIAL.get(name)
        if idea and any(
            (known is None and idea == "first") or (known and idea in known) for known in self.plain.get(index, ())
        ):
            return PLAIN_AS_SPECIAL
        return 0.0


def find_contrast(slots: Sequence[Slot]) -> Contrast:
    """All such pairs, of numbers in one section and in one field."""
    groups: dict[tuple[int, str, int], list[int]] = defaultdict(list)
    for index, slot in enumerate(slots):
        if slot.number is not None:
            groups[slot.document, slot.assignment.section, slot.field].append(index)
    plain: dict[int, list[frozenset[str] | None]] = defaultdict(list)
    special: set[int] = set()
    for members in groups.values():
        for short, long, more in _pairs(members[:MOST], slots):
            firm = {idea for term in slots[short].own if term.firm for idea in term.ideas}
            around = {idea for term in slots[short].around for idea in term.ideas}
            ideas = frozenset(idea for term in more for idea in term.ideas)
            if not ideas & firm:
                plain[short].append(ideas - around if ideas else None)
                if not around & set(SPECIAL.values()):
                    special.add(long)
        for sibling in _siblings(members[:MOST], slots):
            plain[sibling].append(frozenset({"first"}))
    return Contrast({index: tuple(words) for index, words in plain.items()}, frozenset(special))


def _siblings(members: list[int], slots: Sequence[Slot]) -> Iterator[int]:
    """Slots of which another one says the same of a first layer: ``plate.start`` and ``plate.run``."""
    words = {index: frozenset(term.text for term in slots[index].own) for index in members}
    first = {index: [term for term in slots[index].own if term.ideas.get("first", 0.0) >= SAYS] for index in members}
    rests = {words[index] - {term.text for term in said} for index, said in first.items() if said} - {frozenset()}
    for index in members:
        if all(term.ideas.get("first", 0.0) < SAYS / 2 for term in slots[index].own) and any(
            rest < words[index] and len(words[index]) - len(rest) <= MOST_APART for rest in rests
        ):
            yield index


def _says(term: Term) -> bool:
    """Whether a word makes a key another one: an article does not, a letter or a figure does."""
    return not term.small or bool(term.ideas) or len(term.text) == 1 or term.text.isdigit()


def _pairs(members: list[int], slots: Sequence[Slot]) -> Iterator[tuple[int, int, list[Term]]]:
    """A plain slot, a special one, and the terms that the second has besides."""
    words = {index: [term.text for term in slots[index].own if _says(term)] for index in members}
    homes: dict[str, list[int]] = defaultdict(list)
    for index in members:
        for word in set(words[index]):
            homes[word].append(index)
    for short in members:
        if not words[short]:
            continue
        for long in min((homes[word] for word in words[short]), key=len):
            if 0 < len(words[long]) - len(words[short]) <= 2 and set(words[short]) < set(words[long]):
                yield short, long, [term for term in slots[long].own if term.text not in words[short]]
