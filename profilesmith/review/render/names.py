"""Trade words for settings, for people who look at a screen or a sheet and not at a settings text."""

from __future__ import annotations

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.review.review import ValueChange
from profilesmith.review.sentences import command_name
from profilesmith.review.wording import visible
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


def trade_words(setting: str) -> str:
    """``outer wall speed`` for ``outer_wall.speed``; an unknown id is only spelled out."""
    known = load_vocabulary().settings.get(setting)
    if known is not None and known.words:
        return known.words[0]
    return visible(setting.replace(".", " ").replace("_", " "))


def trade_name(setting: str) -> str:
    """The same with a capital, as the head of a row."""
    words = trade_words(setting)
    return words[:1].upper() + words[1:]


def change_name(change: ValueChange) -> str:
    """The head of a change's row: the setting, or where a machine command stands."""
    if not change.command:
        return trade_name(change.setting)
    words = command_name(change)
    return words[:1].upper() + words[1:]


class MoveSign(NamedTuple):
    """How a value moved. sign: for the eye, whatever the colours are; word: for the ear; look: a class of the page."""

    sign: str
    word: str
    look: str


_OF_STATUS = {
    "added": MoveSign("+", "added", "new"),
    "only new": MoveSign("+", "only in the new one", "new"),
    "only old": MoveSign("×", "only in the old one", "other"),
}


_OF_VERDICT = {
    "passed": MoveSign("✓", "passed", "fine"),
    "note": MoveSign("•", "note", "other"),
    "caution": MoveSign("!", "caution", "up"),
    "stop": MoveSign("×", "stop", "hand"),
    "not judged": MoveSign("?", "not judged", "other"),
}


def verdict_sign(verdict: str) -> MoveSign:
    """The sign of what a check found."""
    return _OF_VERDICT.get(verdict, MoveSign("•", verdict, "other"))


def move(change: ValueChange) -> MoveSign:
    """Raised, lowered, switched, added: from the change's status and its sign."""
    if change.status in _OF_STATUS:
        return _OF_STATUS[change.status]
    ways = {"-": MoveSign("▼", "lower", "down"), "+": MoveSign("▲", "higher", "up")}
    return ways.get(
        change.relative[:1], MoveSign("●", "switched" if change.derived in ("on", "off") else "changed", "other")
    )
