"""Whether one name is a slip or a short form of another: ``outer_wall.sped``, ``nozzle.temp``, ``layerheight``.

Knows no list of names. Common practice, no source: so many slips of the finger a word of that length may have.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

_BETWEEN = re.compile(r"[\W_]+")
SHORTEST_SHORT = 3  # letters with which a short form and its whole word begin alike
SO_MANY_SLIPS = (3, 7, 10)  # letters of a word that may have one, two, three


def parts_of(name: str) -> list[str]:
    """The words of a name, without what stands between them."""
    return [part for part in _BETWEEN.split(name.casefold()) if part]


def is_like(name: str, known: str) -> bool:
    """Word for word; or by all letters in a row with one slip, where one of them is divided otherwise."""
    mine, theirs = parts_of(name), parts_of(known)
    return (len(mine) == len(theirs) and _all_like(mine, theirs)) or slips("".join(mine), "".join(theirs)) in (0, 1)


def is_part_of(name: str, known: str) -> bool:
    """Whether some words of the known name in a row are like those of the name: ``nozzle_diametr`` of ``machine.
    nozzle_diameter``. A single word has to be the same: too much is like one.
    """
    mine, theirs = parts_of(name), parts_of(known)
    if len(mine) < 2:
        return bool(mine) and mine[0] in theirs
    return any(_all_like(mine, theirs[at : at + len(mine)]) for at in range(len(theirs) - len(mine) + 1))


def _all_like(mine: Sequence[str], theirs: Sequence[str]) -> bool:
    """Of several words one may be another form of the same stem, since the others speak for it."""
    several = len(mine) > 1
    return all(
        slips(one, other) is not None or _is_short(one, other) or (several and _is_kin(one, other))
        for one, other in zip(mine, theirs, strict=True)
    )


def _is_kin(one: str, other: str) -> bool:
    """Whether two words begin alike for half of the longer one: ``tubing`` and ``tube``."""
    longer = max(len(one), len(other))
    alike = next((at for at, (a, b) in enumerate(zip(one, other, strict=False)) if a != b), min(len(one), len(other)))
    return alike >= SHORTEST_SHORT and 2 * alike >= longer


def _is_short(one: str, other: str) -> bool:
    """Whether a word is another one with letters left out, and both begin alike: ``temp``, ``dist``, ``layerthk``."""
    short, long = sorted((one, other), key=len)
    if len(short) <= SHORTEST_SHORT or short[:SHORTEST_SHORT] != long[:SHORTEST_SHORT]:
        return False
    letters = iter(long)
    return all(sign in letters for sign in short)


def slips(one: str, other: str) -> int | None:
    """Letters too many, too few, wrong, or two that changed places; None for more than a word of that length may have.

    The distance of optimal string alignment (Damerau 1964, Boytsov 2011), row by row.
    """
    longer = max(len(one), len(other))
    most = sum(longer >= least for least in SO_MANY_SLIPS)
    if abs(len(one) - len(other)) > most:
        return None
    before, row = list(range(len(other) + 1)), list(range(len(other) + 1))
    for at, mine in enumerate(one, 1):
        last = before
        before, row = row, [at]
        for to, theirs in enumerate(other, 1):
            least = min(before[to] + 1, row[-1] + 1, before[to - 1] + (mine != theirs))
            if at > 1 and to > 1 and mine == other[to - 2] and one[at - 2] == theirs:
                least = min(least, last[to - 2] + 1)
            row.append(least)
    return row[-1] if row[-1] <= most else None
