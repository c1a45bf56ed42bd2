"""Sure, or to be checked: the bars that a proposal must pass to be active in a map without a person's word.

Some bars nothing makes up for: a value that contradicts another, two units, a word of a limit. All else is weighed
together (``WEIGHTS``): a rival setting is no doubt where it has a key of its own that nothing else suits. Weights and
bars are fitted on the dialects under tests/cases/dialects/tuned with part of their words taken out of the lexicon, so
that
they hold for words that nobody has listed: ``python -m tests.benchmarks.certainty``, which also shows what they do on
texts that they were not fitted on. Figures on other dialects: ``python -m tests.benchmarks.suggest``.
"""

from collections.abc import Iterator, Mapping
from enum import Enum

from profilesmith.suggest.evidence import Evidence

SLOT_LEAD, SETTING_LEAD, UNIT_LEAD = 2.0, 1.0, 1.5
HOLD, GAIN = 0.22, -1.0
FAINT, MORE = 0.06, 1.5  # a fainter hold of known words is enough where so much more speaks for a proposal
SURE_FROM = 4.0  # the weighed sum: logarithm of odds
# What each measure adds to the logarithm of odds that a proposal is right, and between which ends it counts.
START = -1.65
WEIGHTS: Mapping[str, tuple[float, float, float]] = {
    "score": (-2.0, 6.0, 0.02),
    "slot_lead": (-1.0, 4.0, 0.18),
    "setting_lead": (-1.0, 4.0, 0.26),
    "regret": (-1.0, 6.0, 0.55),
    "far_regret": (-1.0, 6.0, 0.67),
    "gain": (-1.0, 3.0, 0.32),
    "weakest": (0.0, 1.0, 1.01),
    "listed": (0.0, 1.0, 0.32),
    "strays": (0.0, 3.0, -0.11),
}


class MissedBar(Enum):
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


def judge(evidence: Evidence, odd: str = "", more: bool = False) -> tuple[MissedBar, ...]:
    """Every bar that is not passed; () for what is sure.

    odd: a setting that its value does not agree with. more: there are doubts already, of how the value is spelled.
    """
    hard = tuple(_missed(evidence, odd))
    if not hard and not more and likelihood(evidence) >= _enough(evidence):
        return ()
    soft = tuple(_left_open(evidence))
    return hard + soft or (() if more else (MissedBar.LITTLE,))


def _enough(evidence: Evidence) -> float:
    """The sum from which a proposal is sure."""
    if evidence.weakest >= HOLD:
        return SURE_FROM
    return SURE_FROM + MORE if evidence.listed and evidence.weakest >= FAINT else 99.0


def likelihood(evidence: Evidence) -> float:
    """The logarithm of the odds that a proposal is right, as far as measures tell that nothing outweighs."""
    return START + sum(
        weight * max(low, min(high, float(getattr(evidence, name)))) for name, (low, high, weight) in WEIGHTS.items()
    )


def _missed(evidence: Evidence, odd: str) -> Iterator[MissedBar]:
    bars = (
        (MissedBar.ODD, bool(odd)),
        (MissedBar.TWO_UNITS, evidence.two_units),
        (MissedBar.DECOY, bool(evidence.decoy)),
        (MissedBar.UNIT, evidence.unit_lead < UNIT_LEAD),
        (MissedBar.VALUE, evidence.gain < GAIN),
    )
    yield from (doubt for doubt, missed in bars if missed)


def _left_open(evidence: Evidence) -> Iterator[MissedBar]:
    bars = (
        (MissedBar.UNSAID, bool(evidence.missing) or evidence.weakest < HOLD or evidence.doubled),
        (MissedBar.LOOSE, evidence.loose),
        (MissedBar.RIVAL_SETTING, evidence.slot_lead < SLOT_LEAD),
        (MissedBar.RIVAL_KEY, evidence.setting_lead < SETTING_LEAD),
    )
    yield from (doubt for doubt, missed in bars if missed)
