"""What a text holds for each setting and tool: the value, and the share where it is written relative to something.

A share is compared as a share: when somebody edits the outer wall's speed, a first layer of "40 %" was not edited.
A switch or a choice is compared as it is written, too: "4" and "3" may both read as on, and only a hand knows which.
"""

from collections.abc import Mapping, Sequence
from fractions import Fraction

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.translation.document_to_profile import Translation
from profilesmith.translation.pieces import Span
from profilesmith.translation.spelling import is_share
from profilesmith.vocabulary.setting import Value, Vocabulary


class HeldValue(NamedTuple):
    """value: canonical; share: of ``of`` (1 is the whole), None where the text writes the value itself.

    text: how a switch or a choice is written; "" for a number, and where it is not known. keeps: a share that is
    rewritten when what it is of moves, so that the value stays.
    """

    value: Value
    share: Fraction | None = None
    of: str = ""
    text: str = ""
    keeps: bool = False


Holding = tuple[HeldValue, ...]


def same(one: HeldValue, other: HeldValue) -> bool:
    """Whether two say the same. A ledger keeps a third of a degree as the nearest double, so doubles are compared."""
    if one.share is not None and other.share is not None and one.of == other.of:
        return float(one.share) == float(other.share)
    mine, theirs = one.value, other.value
    if isinstance(mine, Fraction) and isinstance(theirs, Fraction):
        return mine == theirs or float(mine) == float(theirs)
    written = one.text == other.text or not (one.text and other.text)
    return mine == theirs and isinstance(mine, bool) == isinstance(theirs, bool) and written


def stayed(one: HeldValue, other: HeldValue) -> bool:
    """Whether a new base says what the old one did: its share, or what a share that keeps its value comes to."""
    return same(one, other) or (one.keeps and other.keeps and one.value == other.value)


def agreed(one: HeldValue, other: HeldValue) -> bool:
    """Whether two sides come to the same: shares that keep their values are compared by these."""
    if one.keeps and other.keeps:
        return float(one.value) == float(other.value)
    return same(one, other)


def holdings(translation: Translation, vocabulary: Vocabulary) -> Mapping[str, Holding]:
    """All settings of a text."""
    holdings = {}
    for name, entry in translation.profile.entries.items():
        spot = translation.spots[name]
        shares = entry.shares or (None,) * len(entry.values)
        of = entry.relative_to
        if spot.constant:
            of, shares = spot.binding.relative_key, tuple(_shares(translation, name, vocabulary))
        held = (
            HeldValue(value, share, of, keeps=entry.held and share is not None and not spot.constant)
            for value, share in zip(entry.values, shares, strict=True)
        )
        plain = (
            vocabulary.settings[name].is_number or entry.coupling
        )  # a switch that rides on a number is as written there
        holdings[name] = tuple(held) if plain else _written(tuple(held), entry.origin.text, spot.spans)
    return holdings


def _written(holding: Holding, raw: str, spans: Sequence[Span]) -> Holding:
    """A switch or a choice with its texts."""
    if len(holding) != len(spans):
        return holding
    return tuple(held._replace(text=span.of(raw)) for held, span in zip(holding, spans, strict=True))


def _shares(translation: Translation, name: str, vocabulary: Vocabulary) -> list[Fraction | None]:
    """The shares of a key that is no setting: only its pieces tell whether they are shares."""
    spot, entry = translation.spots[name], translation.profile.entries[name]
    raw, constant = entry.origin.text, spot.constant
    return [
        value / constant
        if constant
        and isinstance(value, Fraction)
        and is_share(span.of(raw), spot.binding, vocabulary.settings[name], translation.decimal)
        else None
        for value, span in zip(entry.values, spot.spans, strict=True)
    ]
