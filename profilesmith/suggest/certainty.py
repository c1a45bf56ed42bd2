"""Sure, or to be checked: the bars that a proposal must pass to be active in a map without a person's word.

The bars were set on the dialects under tests/cases/dialects/tuned with part of their words taken out of the lexicon, so
that they hold for words that nobody has listed. Figures on other dialects: ``python -m tests.benchmarks.suggest``.
"""

from profilesmith.suggest.evidence import Evidence
from profilesmith.suggest.form import Form
from profilesmith.suggest.proposal import CHECK, SURE

SCORE, SLOT_LEAD, SETTING_LEAD, UNIT_LEAD = 2.0, 2.0, 1.0, 1.5
HOLD, GAIN, WEIGHT = 0.22, -1.0, 0.55


def judge(evidence: Evidence, form: Form, odd: str = "") -> tuple[str, tuple[str, ...]]:
    """The degree of certainty, and every reason why it is not sure. odd: a setting that its value does not agree with."""
    doubts = list(form.doubts)
    if odd:
        doubts.append(f"Its value does not go with that of {odd}.")
    if evidence.missing or evidence.weakest < HOLD or evidence.doubled:
        doubts.append("No word that is known says all of it.")
    if evidence.loose:
        doubts.append("The key has a word that nothing explains.")
    if evidence.two_units:
        doubts.append("The text would have such numbers in two units: some of them may be shares.")
    if evidence.decoy:
        doubts.append("Its words are also used for other things.")
    if evidence.slot_lead < SLOT_LEAD:
        doubts.append("The key could hold another setting.")
    if evidence.setting_lead < SETTING_LEAD:
        doubts.append("Another key could hold this setting.")
    if evidence.unit_lead < UNIT_LEAD:
        doubts.append("The unit is a guess.")
    if evidence.gain < GAIN:
        doubts.append("The value is unusual for this setting.")
    if not doubts and (evidence.score < SCORE or evidence.weight < WEIGHT):
        doubts.append("Little speaks for it.")
    return (CHECK if doubts else SURE), tuple(doubts)
