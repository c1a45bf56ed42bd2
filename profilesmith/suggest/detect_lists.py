"""Lists of one value per tool, and several settings packed into one value: which separator does what in this text."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from fractions import Fraction

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.quantity import Unit, split_quantity, unit_before_words

SEPARATORS = ("|", ";", "/", " / ", "@", ">", ":", "+", "&", "~", ",", "x", " ")
MOST_PARTS = 4
# Values of several tools are near each other; two settings in one value (a nozzle's and a bed's heat) are not.
NEAR = Fraction(13, 10)


class Part(NamedTuple):
    """A number as written, with the unit behind it, and the words behind that ("of inner")."""

    text: str
    number: Fraction
    unit: Unit | None
    words: str = ""


class Lists(NamedTuple):
    """tools: the separators of per-tool lists, the commonest first; packed: those of packed values.

    many: how many tools the lists have; 0 without lists.
    """

    tools: tuple[str, ...]
    packed: tuple[str, ...]
    many: int


def read_part(text: str, decimal: str) -> Part | None:
    """A number with or without a unit that is known, or the noun of what it counts."""
    text = text.strip().strip("\"'").strip()
    if not text or not (text[0].isdigit() or text[0] in "+-." or text[0] == decimal):
        return None
    number, suffix = split_quantity(text, decimal)
    if number is None:
        return None
    unit, words = unit_before_words(suffix)
    return None if suffix and unit is None and not words else Part(text, number, unit, words)


def split_value(text: str, decimal: str) -> tuple[str, list[Part]] | None:
    """A value's separator and parts, when it is several numbers."""
    for separator in SEPARATORS:
        if separator not in text or separator == decimal:
            continue
        pieces = text.split() if separator == " " else text.split(separator)
        if not 2 <= len(pieces) <= MOST_PARTS:
            continue
        parts = [part for part in (read_part(piece, decimal) for piece in pieces) if part is not None]
        if len(parts) == len(pieces):
            return separator, parts
    return None


def plain_mark(separator: str) -> str:
    """A separator without the blanks that only keep it apart from units (``10 mm3/s / 17 mm3/s``)."""
    return separator.strip() or separator


def same_words(text: str, separator: str, many: int) -> str:
    """The word that a list repeats for each of so many tools: ``yes / yes``; "" for anything else."""
    pieces = [piece.strip() for piece in (text.split() if separator == " " else text.split(separator))]
    alike = len(pieces) == many > 1 and len(set(pieces)) == 1 and pieces[0].isalpha()
    return pieces[0] if alike else ""


def are_near(parts: Iterable[Part]) -> bool:
    """Whether numbers could be one setting's for several tools."""
    numbers = [part.number for part in parts]
    if len({part.unit.kind if part.unit else "" for part in parts}) > 1:
        return False
    low, high = min(numbers), max(numbers)
    return low == high or (low > 0 and high / low <= NEAR)


def find_lists(values: Iterable[str], decimal: str) -> Lists:
    """What each separator is used for. One that ever parts unlike numbers packs them, unless it mostly makes lists."""
    near: Counter[str] = Counter()
    apart: Counter[str] = Counter()
    lengths: Mapping[str, Counter[int]] = defaultdict(Counter)
    for value in values:
        found = split_value(value, decimal)
        if found is None:
            continue
        separator, parts = plain_mark(found[0]), found[1]
        if are_near(parts):
            near[separator] += 1
            lengths[separator][len(parts)] += 1
        else:
            apart[separator] += 1
    tools = tuple(mark for mark, times in near.most_common() if times > apart[mark])
    total: Counter[int] = Counter()
    for mark in tools:
        total += lengths[mark]
    packed = tuple(mark for mark, _ in apart.most_common())
    return Lists(tools, packed, total.most_common(1)[0][0] if total else 0)
