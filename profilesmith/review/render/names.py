"""Trade words for settings, for people who look at a screen or a sheet and not at a settings text."""

from __future__ import annotations

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.review.review import Change
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


def change_name(change: Change) -> str:
    """The head of a change's row: the setting, or where a machine command stands."""
    if not change.command:
        return trade_name(change.setting)
    words = command_name(change)
    return words[:1].upper() + words[1:]


class Move(NamedTuple):
    """How a value moved. sign: for the eye, whatever the colours are; word: for the ear; look: a class of the page."""

    sign: str
    word: str
    look: str


_OF_STATUS = {
    "added": Move("+", "added", "new"),
    "only new": Move("+", "only in the new one", "new"),
    "only old": Move("×", "only in the old one", "other"),
}


_OF_VERDICT = {
    "passed": Move("✓", "passed", "fine"),
    "note": Move("•", "note", "other"),
    "caution": Move("!", "caution", "up"),
    "stop": Move("×", "stop", "hand"),
    "not judged": Move("?", "not judged", "other"),
}


def verdict_sign(verdict: str) -> Move:
    """The sign of what a check found."""
    return _OF_VERDICT.get(verdict, Move("•", verdict, "other"))


def move(change: Change) -> Move:
    """Raised, lowered, switched, added: from the change's status and its sign."""
    if change.status in _OF_STATUS:
        return _OF_STATUS[change.status]
    ways = {"-": Move("▼", "lower", "down"), "+": Move("▲", "higher", "up")}
    return ways.get(
        change.relative[:1], Move("●", "switched" if change.derived in ("on", "off") else "changed", "other")
    )
