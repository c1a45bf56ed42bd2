"""Units that a remark at the head of a block states for its lines: ``* in/s unless it says otherwise``.

Comes in: a text's lines, which of them are remarks, and which head something. Goes out: number of a line -> units.
Knows no settings.
"""

from collections.abc import Collection, Mapping, Sequence

from profilesmith.suggest.lexicon import Lexicon
from profilesmith.suggest.remark_units import named_units, speaks_of_share

MOST_WORDS = 8  # of such a remark


def block_units(
    lines: Sequence[str], remarks: Mapping[int, str], headings: Collection[int], first: int, lexicon: Lexicon
) -> dict[int, tuple[str, ...]]:
    """The units of each line below such a remark, up to the next remark or heading; without headings to a blank line.

    first: the line of the first key. What stands above it and below no heading is said of the whole text.
    """
    units: dict[int, tuple[str, ...]] = {}
    current: tuple[str, ...] = ()
    begun = False
    for number, line in enumerate(lines, 1):
        begun = begun or number in headings or number >= first
        if number in headings:
            current = ()
        elif number in remarks:
            stated = _stated(remarks[number], lexicon) if begun else ()
            current = (*current, *stated) if number - 1 in remarks else stated
        elif not line.strip():
            current = current if headings else ()
        elif current:
            units[number] = current
    return units


def _stated(remark: str, lexicon: Lexicon) -> tuple[str, ...]:
    if len(remark.split()) > MOST_WORDS or speaks_of_share(remark, lexicon):
        return ()
    return tuple(named_units(remark, lexicon.units))
