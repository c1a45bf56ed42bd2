"""Sure, or to be checked: the bars that a proposal must pass to be active in a map without a person's word.

The bars were set on the dialects under tests/cases/dialects/tuned with part of their words taken out of the lexicon, so
that they hold for words that nobody has listed. Figures on other dialects: ``python -m tests.benchmarks.suggest``.
"""

from collections.abc import Iterator
from enum import Enum

from profilesmith.suggest.evidence import Evidence

SCORE, SLOT_LEAD, SETTING_LEAD, UNIT_LEAD = 2.0, 2.0, 1.0, 1.5
HOLD, GAIN, WEIGHT = 0.22, -1.0, 0.55


class Doubt(Enum):
    """A bar that was not passed. What a person is told of it: ``doubts.py``."""

    ODD = "its value does not agree with another setting's"
    UNSAID = "its words do not say all of the setting"
    LOOSE = "only the section says which thing it is, and the key has a word that nothing explains"
    TWO_UNITS = "the text would have such numbers in two units"
    DECOY = "a word mostly names other things"
    RIVAL_SETTING = "the key suits another setting nearly as well"
    RIVAL_KEY = "another key suits the setting nearly as well"
    UNIT = "another unit suits the value nearly as well"
    VALUE = "the value is unusual"
    LITTLE = "all together is too little"


def judge(evidence: Evidence, odd: str = "", more: bool = False) -> tuple[Doubt, ...]:
    """Every bar that is not passed; () for what is sure.

    odd: a setting that its value does not agree with. more: there are doubts already, of how the value is spelled.
    """
    found = tuple(_missed(evidence, odd))
    if not found and not more and (evidence.score < SCORE or evidence.weight < WEIGHT):
        return (Doubt.LITTLE,)
    return found


def _missed(evidence: Evidence, odd: str) -> Iterator[Doubt]:
    bars = (
        (Doubt.ODD, bool(odd)),
        (Doubt.UNSAID, bool(evidence.missing) or evidence.weakest < HOLD or evidence.doubled),
        (Doubt.LOOSE, evidence.loose),
        (Doubt.TWO_UNITS, evidence.two_units),
        (Doubt.DECOY, bool(evidence.decoy)),
        (Doubt.RIVAL_SETTING, evidence.slot_lead < SLOT_LEAD),
        (Doubt.RIVAL_KEY, evidence.setting_lead < SETTING_LEAD),
        (Doubt.UNIT, evidence.unit_lead < UNIT_LEAD),
        (Doubt.VALUE, evidence.gain < GAIN),
    )
    yield from (doubt for doubt, missed in bars if missed)
