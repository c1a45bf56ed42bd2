"""Words that no list holds, by those that look like them: ``widht`` is a slip for width, ``flowing`` is of ``flow``.

Comes in: a word and the listed words. Goes out: the listed word that it is most likely a form of, and how sure that is.
"""

from collections.abc import Iterable, Mapping

from profilesmith.foundation.named_tuple import NamedTuple

SHORTEST = 4  # letters of a word that is looked for
# Of one in which any letter may be wrong: "board" is no "bord". In shorter ones letters change places.
SHORTEST_SLIP = 6
SHORTEST_STEM = 5  # that two words of one stem share
SLIP, KIN = 0.8, 0.6  # how much of a word's meaning a slip has, and a word of the same stem
LONGEST_ENDING, LOST = 5, 2  # letters that a word of one stem may have more, and that the shorter may have of its own


class Near(NamedTuple):
    """A listed word that another one looks like; share: how much of its meaning that has."""

    word: str
    share: float


def by_beginning(words: Iterable[str]) -> Mapping[str, tuple[str, ...]]:
    """Words by their first two letters."""
    listed: dict[str, list[str]] = {}
    for word in words:
        if len(word) >= SHORTEST and word.isalpha():
            listed.setdefault(word[:2], []).append(word)
    return {start: tuple(sorted(those)) for start, those in listed.items()}


def nearest(word: str, listed: Mapping[str, tuple[str, ...]]) -> Near | None:
    """The listed word that a word is a slip for, or else the one that it shares the longest stem with."""
    if len(word) < SHORTEST or not word.isalpha():
        return None
    near = (*listed.get(word[:2], ()), *listed.get(word[0] + word[2], ()))  # "frist" is a slip, too
    slip = next((known for known in near if abs(len(known) - len(word)) <= 1 and is_slip(word, known)), "")
    if slip:
        return Near(slip, SLIP)
    kin = max(listed.get(word[:2], ()), key=lambda known: _shared(word, known), default="")
    return Near(kin, KIN) if kin and _is_kin(word, kin) else None


def _shared(one: str, other: str) -> int:
    """How many letters two words begin with alike."""
    for at, (mine, theirs) in enumerate(zip(one, other, strict=False)):
        if mine != theirs:
            return at
    return min(len(one), len(other))


def _is_kin(one: str, other: str) -> bool:
    shared = _shared(one, other)
    short, long = sorted((len(one), len(other)))
    return shared >= max(SHORTEST_STEM, short - LOST) and long - shared <= LONGEST_ENDING


def is_slip(word: str, known: str) -> bool:
    """Whether one letter too many, too few or wrong, or two that changed places, is all that parts two words.

    A short word may only have two letters that changed places, or one that is written once in place of twice.
    """
    begin = _shared(word, known)
    mine, theirs = word[begin:], known[begin:]
    if len(mine) == len(theirs):
        swapped = mine[:2] == theirs[1::-1] and mine[2:] == theirs[2:]
        return len(mine) > 1 and (swapped or (len(word) >= SHORTEST_SLIP and mine[1:] == theirs[1:]))
    longer, shorter = (mine, theirs) if len(mine) > len(theirs) else (theirs, mine)
    doubled = longer[:1] == word[begin - 1]
    return len(longer) - len(shorter) == 1 and longer[1:] == shorter and (doubled or len(word) >= SHORTEST_SLIP)
