"""What speaks for a chosen slot, as numbers that certainty is judged by, and as words for people."""

from collections import Counter

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.suggest.ideas import THINGS, IdeaPart
from profilesmith.suggest.lexicon import Term
from profilesmith.suggest.propose import ProposedReading
from profilesmith.suggest.slot import Slot
from profilesmith.suggest.unit_habits import ONE_UNIT
from profilesmith.suggest.values import Fit, Way

FIRM = 0.9  # a hold on an idea that a word of the trade gives
LIKELY = -1.0  # how well a number must fit to be likely in another unit
COMMON = frozenset({"", "mm", "um", "mm/s", "mm/min", "mm/s2", "°C", "%", "fraction", "0-255", "°", "s", "mm3/s"})
SYSTEMS = {
    "in/s": ("in",),
    "in/min": ("in",),
    "in": ("in/s", "in/min"),
    "in/s2": ("in", "in/s"),
}  # units that go together
NO_REGRET = -1.0  # of a slot that is not the chosen one
LONELY = 4  # a unit that less than one bare length in so many has is doubtful


class Hold(NamedTuple):
    """What says one idea of a setting: a word, where it stands, and how strongly.

    listed: a language knows the word for it. optional: the setting can do without the idea.
    """

    idea: str
    word: str
    where: str
    strength: float
    firm: bool
    listed: bool
    optional: bool = False


class Evidence(NamedTuple):
    """score: against no setting at all. slot_lead: against the slot's next setting; setting_lead: against the setting's
    next slot.

    unit_lead: of the reading against the next unit that fits. holds: what says each idea; missing: ideas that nothing
    says.
    decoy: how much the words speak against any setting. loose: the thing is said by the section alone, and the key has
    a word that nothing explains. two_units: the text would have bare numbers of this kind in two units.
    regret: what all proposals together lose without this one; far_regret: the same where even keys that look like none
    of the settings may take its place. strays: words of the key that nothing explains.
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
    regret: float = NO_REGRET
    far_regret: float = NO_REGRET
    strays: int = 0

    @property
    def doubled(self) -> bool:
        """Whether one word, which is no word of the trade, must say two ideas at once."""
        words = [(hold.word, hold.where) for hold in self.holds if not hold.firm and not hold.optional]
        return len(words) > len(set(words))

    @property
    def founded(self) -> bool:
        """Whether words that a language knows say all of it."""
        return self.score > 0 and not self.missing and all(hold.listed for hold in self.holds)

    @property
    def listed(self) -> bool:
        """Whether a language knows a word for each idea that must be said."""
        return not self.missing and all(hold.listed for hold in self.holds if not hold.optional)

    @property
    def weakest(self) -> float:
        """The least hold on an idea."""
        return min((hold.strength for hold in self.holds), default=0.0)


def evidence_for(name: str, index: int, reading: ProposedReading) -> Evidence:
    """Everything about a slot that is proposed for a setting."""
    slot, scored = reading.slots[index], reading.scores[index][name]
    rivals = [one.score for other, one in reading.scores[index].items() if other != name]
    elsewhere = [options[name].score for at, options in enumerate(reading.scores) if at != index and name in options]
    terms = [term for _, terms, _, stray in slot.words if stray for term in terms]
    return Evidence(
        score=scored.score,
        slot_lead=scored.score - max(rivals, default=-9.0),
        setting_lead=scored.score - max(elsewhere, default=-9.0),
        unit_lead=_unit_lead(name, index, reading),
        gain=scored.gain,
        holds=tuple(_holds(name, index, slot, reading)),
        missing=scored.missing,
        decoy=max((reading.learnt.decoy(term, reading.schemas.named[name].ideas) for term in terms), default=0.0),
        weight=reading.weights[index].get(name, 0.0),
        loose=_is_loose(name, index, slot, reading),
        two_units=_two_units(name, reading)
        or bool(stated_rivals(name, index, reading))
        or _strange_unit(name, index, reading),
        regret=_regret(reading.regrets, name, index),
        far_regret=_regret(reading.far_regrets, name, index),
        strays=len(_strays(name, index, slot, reading)),
    )


def _regret(regrets: dict[str, tuple[int, float]], name: str, index: int) -> float:
    held, lost = regrets.get(name, (index, NO_REGRET))
    return lost if held == index else NO_REGRET


def _strays(name: str, index: int, slot: Slot, reading: ProposedReading) -> list[Term]:
    """The words of a key that say nothing of a setting."""
    ideas = reading.schemas.named[name].ideas
    return [term for term in slot.own if not term.small and ideas.isdisjoint(reading.learnt.ideas(term, index))]


def _is_loose(name: str, index: int, slot: Slot, reading: ProposedReading) -> bool:
    if not any(hold.where == "section" and hold.idea in THINGS for hold in _holds(name, index, slot, reading)):
        return False
    return bool(_strays(name, index, slot, reading))


def _two_units(name: str, reading: ProposedReading) -> bool:
    """Bare speeds in two units are most likely in one, and some of them shares; a length in a unit that few have may be
    one.
    """
    units = _bare_units(name, reading)
    mine = reading.ways.get(name)
    if not units or mine is None:
        return False
    if reading.schemas.named[name].setting.kind in ONE_UNIT:
        return len(units) > 1
    return len(units.get(mine.unit, ())) * LONELY <= sum(map(len, units.values()))


def _bare_units(name: str, reading: ProposedReading) -> dict[str, list[int]]:
    """The units of the bare numbers of a setting's family, and the slots that have each; {} when its own is no such
    number.
    """
    schema = reading.schemas.named[name]
    kind, mine = schema.setting.kind, reading.ways.get(name)
    own = reading.slots[reading.chosen[name]] if name in reading.chosen else None
    if (
        kind not in (*ONE_UNIT, "length")
        or mine is None
        or mine.share
        or own is None
        or own.unit is not None
        or own.units
    ):
        return {}
    units: dict[str, list[int]] = {}
    for other, index in reading.chosen.items():
        slot, way = reading.slots[index], reading.ways[other]
        bare = slot.unit is None and not slot.units and not way.share
        if reading.schemas.named[other].family == schema.family and bare and reading.scores[index][other].score > 0:
            units.setdefault(way.unit, []).append(index)
    return units


def others_in_units(name: str, reading: ProposedReading) -> dict[str, int]:
    """For each unit but a setting's own in which bare numbers of its family are read: the first slot that is, if that
    is odd.
    """
    if not _two_units(name, reading):
        return {}
    return {unit: min(slots) for unit, slots in _bare_units(name, reading).items() if unit != reading.ways[name].unit}


def stated_rivals(name: str, index: int, reading: ProposedReading) -> list[Fit]:
    """Readings in another unit of this kind that remarks name, and in which a bare number would be a likely value
    too.
    """
    mine, slot = reading.ways.get(name), reading.slots[index]
    if mine is None or mine.share or slot.unit is not None or slot.units:
        return []
    return [
        fit
        for fit in _fits(name, index, reading)
        if fit.way.unit in reading.stated and fit.way.unit != mine.unit and not fit.way.share and fit.gain >= LIKELY
    ]


def _strange_unit(name: str, index: int, reading: ProposedReading) -> bool:
    """Whether a bare number is read in a unit that few texts have and that this one shows nowhere."""
    way, slot = reading.ways.get(name), reading.slots[index]
    if way is None or way.share or way.unit in COMMON or slot.unit is not None or way.unit in slot.units:
        return False
    written = {other.unit.name for other in reading.slots if other.unit is not None}
    named = Counter(unit for other in reading.slots for unit in other.units)  # one alone may be a word: SPEED_IN
    shown = written | reading.stated.keys() | {unit for unit, times in named.items() if times > 1}
    return not {way.unit, *SYSTEMS.get(way.unit, ())} & shown


def _fits(name: str, index: int, reading: ProposedReading) -> list[Fit]:
    """The ways in which a slot's number could be read for a setting."""
    return next(
        (ways for schema, ways in reading.candidates[index] if schema.setting.id == name and not schema.other), []
    )


def _unit_lead(name: str, index: int, reading: ProposedReading) -> float:
    """How much better the chosen unit is than the next one."""
    values = [value for value, _ in ranked_fits(name, index, reading)]
    return 0.0 if not values else values[0] - values[1] if len(values) > 1 else 9.0


def ranked_fits(name: str, index: int, reading: ProposedReading) -> list[tuple[float, Way]]:
    """The ways of reading a number and how good each is, the best first."""
    schema, slot = reading.schemas.named[name], reading.slots[index]
    fits = [
        (0.85 * fit.gain + reading.habits.prior(slot, schema, fit.way), fit.way) for fit in _fits(name, index, reading)
    ]
    return sorted(fits, key=lambda item: -item[0])


def _holds(name: str, index: int, slot: Slot, reading: ProposedReading) -> list[Hold]:
    holds = []
    for part in reading.schemas.named[name].parts:
        best = max(_part_holds(part, index, slot, reading), key=lambda hold: hold.strength, default=None)
        if best is not None:
            holds.append(best)
    return holds


def _part_holds(part: IdeaPart, index: int, slot: Slot, reading: ProposedReading) -> list[Hold]:
    holds = []
    for where, terms, weight, _ in slot.words:
        for term in terms:
            known = {**term.lent, **reading.learnt.ideas(term, index)}
            for idea, share in part.choices:
                if idea in known:
                    strength = known[idea] * share * weight
                    firm = term.firm and (known[idea] >= FIRM or idea in term.lent) and weight >= 0.7
                    listed = idea in term.ideas or idea in term.lent
                    holds.append(Hold(idea, term.text, where, strength, firm, listed, part.optional))
    return holds
