"""What is doubtful in a proposal, in sentences that name the word, the other setting or key, the units and the value.

Comes in: the bars that were missed, and all that was read. Goes out: one sentence each, for a person who knows their
printer and has the text before them. Nothing is judged here.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.words import listed
from profilesmith.suggest.certainty import HOLD, SETTING_LEAD, SLOT_LEAD, MissedBar
from profilesmith.suggest.doubt_units import other_units, two_units
from profilesmith.suggest.evidence import Evidence, Hold
from profilesmith.suggest.idea_words import spoken
from profilesmith.suggest.ideas import THINGS, IdeaPart
from profilesmith.suggest.lexicon import Term
from profilesmith.suggest.propose import ProposedReading
from profilesmith.suggest.reasons import USUAL_GAIN
from profilesmith.suggest.slot import Slot
from profilesmith.suggest.usual_values import usual
from profilesmith.suggest.values import Way

MOST_RIVALS = 2  # that are named
FAR = 2.5  # so many times the lead of a sure proposal is still worth a word where little speaks for it


class ProposedSlot(NamedTuple):
    """A slot (by its number) that is proposed for a setting."""

    setting: str
    at: int
    way: Way
    evidence: Evidence
    reading: ProposedReading

    @property
    def slot(self) -> Slot:
        return self.reading.slots[self.at]

    @property
    def parts(self) -> tuple[IdeaPart, ...]:
        return self.reading.schemas.named[self.setting].parts


def told(missed: Sequence[MissedBar], case: ProposedSlot) -> tuple[str, ...]:
    """One sentence for each bar that was missed."""
    return tuple(dict.fromkeys(_SENTENCES[doubt](case) for doubt in missed))


def _odd(case: ProposedSlot) -> str:
    other = case.reading.odd[case.setting]
    against = case.reading.slots[case.reading.chosen[other]]
    return f"{_written(case.slot)} does not go well with {other}, which is {_written(against)} here."


def _unsaid(case: ProposedSlot) -> str:
    """Which idea of the setting is said by which word, which by none, and which words of the key are left over."""
    ideas = {hold.idea for hold in case.evidence.holds}
    parts = (part for part in case.parts if not part.optional and ideas.isdisjoint(idea for idea, _ in part.choices))
    unsaid = [spoken(part.choices[0][0]) for part in parts]
    clauses = [*_words(case), f"no word says {listed(unsaid, 'or')}" if unsaid else "", *_left_over_words(case)]
    return f"{'; '.join(filter(None, clauses))}."


def _words(case: ProposedSlot) -> list[str]:
    said, guessed = _said(case)
    return [listed(said), listed(guessed)]


def _said(case: ProposedSlot) -> tuple[list[str], list[str]]:
    """What words say the setting's ideas: those that do, and those that are only guessed to."""
    said: dict[str, list[str]] = {}
    guessed: dict[str, list[str]] = {}
    for hold in case.evidence.holds:
        weak = hold.strength < HOLD or not (hold.listed or hold.firm)
        twice = any(_same_word(hold, other) and other.strength > hold.strength for other in case.evidence.holds)
        ideas = (guessed if weak or twice else said).setdefault(_quoted(hold), [])
        ideas += [spoken(hold.idea)] if spoken(hold.idea) not in ideas else []
    return (
        [f"{word} says {'both ' if len(ideas) == 2 else ''}{listed(ideas)}" for word, ideas in said.items()],
        [f"{word} is only guessed to say {listed(ideas)}" for word, ideas in guessed.items()],
    )


def _same_word(one: Hold, other: Hold) -> bool:
    return one is not other and not one.firm and (one.word, one.where) == (other.word, other.where)


def _quoted(hold: Hold) -> str:
    return f"'{hold.word}'" if hold.where == "key" else f"'{hold.word}' ({hold.where})"


def _left_over(case: ProposedSlot) -> list[Term]:
    """The words of the key that say nothing of the setting."""
    ideas = case.reading.schemas.named[case.setting].ideas
    learnt = case.reading.learnt
    terms = (term for term in case.slot.own if not term.small and ideas.isdisjoint(learnt.ideas(term, case.at)))
    return list({term.text: term for term in terms}.values())


def _left_over_words(case: ProposedSlot) -> list[str]:
    """Clauses on them: words that say something else, and words that are not known."""
    left = _left_over(case)
    others = [
        f"'{term.text}' says {listed([spoken(idea) for idea in term.ideas], 'or')} instead"
        for term in left
        if term.firm
    ]
    words = _in_quotes(term.text for term in left if not term.firm)
    unknown = [f"{listed(words)} {'is' if len(words) == 1 else 'are'} not understood"] if words else []
    return [listed(others), *unknown]


def _in_quotes(words: Iterable[str]) -> list[str]:
    return [f"'{word}'" for word in words]


def _loose(case: ProposedSlot) -> str:
    things = [hold for hold in case.evidence.holds if hold.where == "section" and hold.idea in THINGS]
    words = listed(_in_quotes(term.text for term in _left_over(case)))
    thing = listed(list(dict.fromkeys(spoken(hold.idea) for hold in things)))
    section = listed(list(dict.fromkeys(f"'{hold.word}'" for hold in things)))
    return f"Only its section ({section}) says {thing}; {words} in the key may make it something else."


def _two_units(case: ProposedSlot) -> str:
    return two_units(case.setting, case.at, case.way, case.reading)


def _decoy(case: ProposedSlot) -> str:
    learnt = case.reading.learnt
    terms: list[Term] = [
        term for _, terms, _, stray in case.slot.words if stray for term in terms if learnt.decoy(term)
    ]
    words = list(dict.fromkeys(f"'{term.text}'" for term in terms))
    limits = [term for term in terms if term.text in learnt.limits]
    what = (
        "marks the highest values of this text: it may be a limit of the machine"
        if limits
        else "often names something that is no print setting"
    )
    return f"{listed(words)} {what}."


def _rival_setting(case: ProposedSlot) -> str:
    return f"It could as well be {listed(_rival_settings(case, SLOT_LEAD), 'or')}."


def _rival_settings(case: ProposedSlot, lead: float) -> list[str]:
    """The settings that the key suits nearly as well, and which keys of this text are taken for those."""
    options = case.reading.scores[case.at]
    near = sorted((name for name in options if name != case.setting), key=lambda name: -options[name].score)
    near = [name for name in near if options[case.setting].score - options[name].score < lead]
    return [_with_home(name, case) for name in near[:MOST_RIVALS]]


def _with_home(name: str, case: ProposedSlot) -> str:
    """A setting and the key that is taken for it."""
    home = case.reading.chosen.get(name)
    if home is None or home == case.at:
        return f"{name} (no key is taken for that)"
    return f"{name} (for which '{case.reading.slots[home].name}' is taken)"


def _rival_key(case: ProposedSlot) -> str:
    return f"{listed(_rival_keys(case, SETTING_LEAD), 'or')} could as well hold {case.setting}."


def _rival_keys(case: ProposedSlot, lead: float) -> list[str]:
    """The keys that suit the setting nearly as well, and what they are taken for."""
    scores = case.reading.scores
    mine = scores[case.at][case.setting].score
    rivals = [at for at, options in enumerate(scores) if at != case.at and case.setting in options]
    rivals.sort(key=lambda at: -scores[at][case.setting].score)
    near = [at for at in rivals if mine - scores[at][case.setting].score < lead][:MOST_RIVALS]
    holds = {at: name for name, at in case.reading.chosen.items()}
    slots = [(case.reading.slots[at], holds.get(at, "")) for at in near]
    return [
        f"'{slot.name}' (line {slot.assignment.line}{f', taken for {name}' if name else ''})" for slot, name in slots
    ]


def _unit(case: ProposedSlot) -> str:
    return other_units(case.setting, case.at, case.way, case.reading)


def _value(case: ProposedSlot) -> str:
    schema = case.reading.schemas.named[case.setting]
    if schema.setting.kind == "switch":
        return f"'{case.slot.text}' is no usual word for on or off."
    span = usual(schema)
    return f"{case.slot.text} is unusual for {case.setting}{f': mostly it is {span}' if span else ''}."


def _little(case: ProposedSlot) -> str:
    """All that speaks for it, and what weakens that."""
    span = usual(case.reading.schemas.named[case.setting])
    against = [f"{case.slot.text} is unusual (mostly {span})" if span and case.evidence.gain < USUAL_GAIN else ""]
    clauses = [*_words(case), *against, _nearest_key(case), _nearest_setting(case), *_left_over_words(case)]
    return f"Only this speaks for it: {'; '.join(filter(None, clauses)) or 'its place'}."


def _nearest_key(case: ProposedSlot) -> str:
    rivals = _rival_keys(case, FAR * SETTING_LEAD)
    return f"{listed(rivals[:1])} is the next likeliest" if rivals else ""


def _nearest_setting(case: ProposedSlot) -> str:
    rivals = _rival_settings(case, FAR * SLOT_LEAD)
    return f"it may be {rivals[0]}" if rivals else ""


def _written(slot: Slot) -> str:
    return f"'{slot.assignment.key} = {slot.text}'"


_SENTENCES: Mapping[MissedBar, Callable[[ProposedSlot], str]] = {
    MissedBar.ODD: _odd,
    MissedBar.UNSAID: _unsaid,
    MissedBar.LOOSE: _loose,
    MissedBar.TWO_UNITS: _two_units,
    MissedBar.DECOY: _decoy,
    MissedBar.RIVAL_SETTING: _rival_setting,
    MissedBar.RIVAL_KEY: _rival_key,
    MissedBar.UNIT: _unit,
    MissedBar.VALUE: _value,
    MissedBar.LITTLE: _little,
}
