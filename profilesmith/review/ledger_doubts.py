"""What contradicts a ledger: as data, which others find, and in sentences."""

from collections.abc import Collection, Iterable
from typing import Literal

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger import Ledger, Row
from profilesmith.ledger.judgement import Finding
from profilesmith.profile.profile import Profile
from profilesmith.recipe.cause_words import cause_name, demand_words
from profilesmith.review.hand_edits import hand_edits
from profilesmith.review.wording import show_values, visible
from profilesmith.vocabulary.setting import Value, Vocabulary

DOUBT = "The ledger cannot be relied on"
Code = Literal["other-copy", "other-row", "other-text", "rule-not-met", "not-told"]


class LedgerDoubt(NamedTuple):
    """One contradiction.

    ``other-copy``: the copy of the text ``name`` is another than its hash says. ``other-row``: ``row`` says another
    value than the ledger's profile, which holds ``holds``. ``other-text``: the text holds other values than the ledger
    (its sentences are those of hand edits); ``but``: settings that hands decided. ``rule-not-met``: ``row`` is said to
    be met, and the text holds ``holds``. ``not-told``: ``finding`` is nowhere in the ledger.
    """

    code: Code
    name: str = ""
    row: Row | None = None
    holds: tuple[Value, ...] = ()
    finding: Finding | None = None
    but: frozenset[str] = frozenset()


def doubt_sentences(
    doubts: Iterable[LedgerDoubt], ledger: Ledger, now: Profile | None, vocabulary: Vocabulary
) -> list[str]:
    """Each once, with the head that says what they mean. now: the values of the text; None where nobody can read it."""
    sentences = [text for doubt in doubts for text in _sentences(doubt, ledger, now, vocabulary)]
    return [f"{DOUBT}: {visible(text)}" for text in dict.fromkeys(sentences)]


def _sentences(doubt: LedgerDoubt, ledger: Ledger, now: Profile | None, vocabulary: Vocabulary) -> list[str]:
    if doubt.code == "other-copy":
        return [f"the ledger keeps another text of {doubt.name} than the one whose hash it names"]
    if doubt.code == "other-text":
        return _of_text(ledger, now, vocabulary, doubt.but)
    if doubt.row is not None:
        return [_of_row(doubt, doubt.row, vocabulary)]
    return [f"{doubt.finding.title}: {doubt.finding.text.rstrip('.')}"] if doubt.finding else []


def _of_text(ledger: Ledger, now: Profile | None, vocabulary: Vocabulary, but: Collection[str]) -> list[str]:
    edits = [] if now is None else hand_edits(ledger, now, vocabulary, but=but)
    return [f"the text and its ledger differ: {sentence}" for sentence in edits]


def _of_row(doubt: LedgerDoubt, row: Row, vocabulary: Vocabulary) -> str:
    setting = vocabulary.settings[row.setting]
    holds = show_values(setting, doubt.holds)
    if doubt.code == "other-row":
        return f"the row of {row.setting} says {show_values(setting, row.derived)}, the ledger's profile {holds}"
    asks = demand_words(row.cause, setting)
    return f"{row.setting} is {holds}, which {cause_name(row.cause)} does not allow: {asks}"
