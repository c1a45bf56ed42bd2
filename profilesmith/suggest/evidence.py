"""What speaks for a chosen slot, as numbers that certainty is judged by, and as words for people."""

from typing import NamedTuple

from profilesmith.suggest.ideas import THINGS, Part
from profilesmith.suggest.lexicon import Lexicon, Term
from profilesmith.suggest.propose import Reading
from profilesmith.suggest.slots import Slot
from profilesmith.suggest.unit_habits import ONE_UNIT
from profilesmith.suggest.values import find_fits

FIRM = 0.9  # a hold on an idea that a word of the trade gives
LONELY = 4  # a unit that less than one bare length in so many has is doubtful


class Hold(NamedTuple):
    """What says one idea of a setting: a word, where it stands, and how strongly. listed: a language knows the word for it."""

    idea: str
    word: str
    where: str
    strength: float
    firm: bool
    listed: bool


class Evidence(NamedTuple):
    """score: against no setting at all. slot_lead: against the slot's next setting; setting_lead: against the setting's next slot.

    unit_lead: of the reading against the next unit that fits. holds: what says each idea; missing: ideas that nothing says.
    decoy: how much the words speak against any setting. loose: the thing is said by the section alone, and the key has a
    word that nothing explains. two_units: the text would have bare numbers of this kind in two units.
    """

    score: float
    slot_lead: float
    setting_lead: float
    unit_lead: float
    gain: float
    holds: tuple[Hold, ...]
    missing: int
    decoy: float
    weight: float
    loose: bool
    two_units: bool

    @property
    def founded(self) -> bool:
        """Whether words that a language knows say all of it."""
        return self.score > 0 and not self.missing and all(hold.listed for hold in self.holds)

    @property
    def weakest(self) -> float:
        """The least hold on an idea."""
        return min((hold.strength for hold in self.holds), default=0.0)


def evidence_for(name: str, index: int, reading: Reading, lexicon: Lexicon) -> Evidence:
    """Everything about a slot that is proposed for a setting."""
    slot, found = reading.slots[index], reading.scores[index][name]
    rivals = [one.score for other, one in reading.scores[index].items() if other != name]
    elsewhere = [options[name].score for at, options in enumerate(reading.scores) if at != index and name in options]
    terms = [*((term, "key") for term in slot.own), *((term, "section") for term in slot.around)]
    return Evidence(
        score=found.score, slot_lead=found.score - max(rivals, default=-9.0),
        setting_lead=found.score - max(elsewhere, default=-9.0), unit_lead=_unit_lead(name, slot, reading, lexicon),
        gain=found.gain, holds=tuple(_holds(name, index, slot, reading)), missing=found.missing,
        decoy=max((term.decoy for term, _ in terms if not term.firm), default=0.0), weight=reading.weights[index].get(name, 0.0),
        loose=_is_loose(name, index, slot, reading), two_units=_two_units(name, reading),
    )  # fmt: skip


def _is_loose(name: str, index: int, slot: Slot, reading: Reading) -> bool:
    schema = reading.schemas.named[name]
    if not any(hold.where == "section" and hold.idea in THINGS for hold in _holds(name, index, slot, reading)):
        return False
    return any(not term.small and schema.ideas.isdisjoint(reading.learnt.ideas(term, index)) for term in slot.own)


def _two_units(name: str, reading: Reading) -> bool:
    """Bare speeds in two units are most likely in one, and some of them shares; a length in a unit that few have may be one."""
    schema = reading.schemas.named[name]
    kind, mine = schema.setting.kind, reading.ways.get(name)
    own = reading.slots[reading.chosen[name]] if name in reading.chosen else None
    if kind not in (*ONE_UNIT, "length") or mine is None or mine.share or own is None or own.unit is not None or own.units:
        return False
    units: dict[str, int] = {}
    for other, index in reading.chosen.items():
        slot, way = reading.slots[index], reading.ways[other]
        bare = slot.unit is None and not slot.units and not way.share
        if reading.schemas.named[other].family == schema.family and bare and reading.scores[index][other].score > 0:
            units[way.unit] = units.get(way.unit, 0) + 1
    if kind in ONE_UNIT:
        return len(units) > 1
    return units.get(mine.unit, 0) * LONELY <= sum(units.values())


def _unit_lead(name: str, slot: Slot, reading: Reading, lexicon: Lexicon) -> float:
    """How much better the chosen unit is than the next one."""
    for schema, ways in find_fits(slot, reading.schemas, lexicon):
        if schema.setting.id == name and not schema.other:
            values = sorted((0.85 * fit.gain + reading.habits.prior(slot, schema, fit.way) for fit in ways), reverse=True)
            return values[0] - values[1] if len(values) > 1 else 9.0
    return 0.0


def _holds(name: str, index: int, slot: Slot, reading: Reading) -> list[Hold]:
    holds = []
    for part in reading.schemas.named[name].parts:
        best = max(_part_holds(part, index, slot, reading), key=lambda hold: hold.strength, default=None)
        if best is not None:
            holds.append(best)
    return holds


def _part_holds(part: Part, index: int, slot: Slot, reading: Reading) -> list[Hold]:
    found = []
    places: tuple[tuple[str, tuple[Term, ...], float], ...] = (
        ("key", slot.own, 1.0), ("section", slot.around, 0.75), ("heading", slot.heading, 0.35), ("remark", slot.remark, 0.4),
    )  # fmt: skip
    for where, terms, weight in places:
        for term in terms:
            known = reading.learnt.ideas(term, index)
            for idea, share in part.choices:
                if idea in known:
                    strength = known[idea] * share * weight
                    firm = term.firm and known[idea] >= FIRM and weight >= 0.7
                    found.append(Hold(idea, term.text, where, strength, firm, idea in term.ideas))
    return found


