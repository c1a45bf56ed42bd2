"""Lists of one value per tool, and several settings packed into one value: which separator does what in this text."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.quantity import Unit, split_quantity, unit_before_words
from profilesmith.text.cuts import COLUMNS, GAP
from profilesmith.translation.pieces import BRACKETS

SEPARATORS = (COLUMNS, "|", ";", "/", " / ", "@", ">", ":", "+", "&", "~", ",", "x", " ")
MOST_PARTS = 4
# Values of several tools are near each other; two settings in one value (a nozzle's and a bed's heat) are not.
NEAR = Fraction(13, 10)
TWO_NOZZLES, FAR = Fraction(9, 4), 0.4  # how far two tools' values may be apart, and how much that speaks against it


class ListedNumber(NamedTuple):
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


def read_part(text: str, decimal: str) -> ListedNumber | None:
    """A number with or without a unit that is known, or the noun of what it counts."""
    text = text.strip().strip("\"'").strip()
    if not text or not (text[0].isdigit() or text[0] in "+-." or text[0] == decimal):
        return None
    number, suffix = split_quantity(text, decimal)
    if number is None:
        return None
    unit, words = unit_before_words(suffix)
    if words == suffix and number > 1 and number.denominator == 1:
        unit = None  # "3 of solid plies" are counted
    return None if suffix and unit is None and not words else ListedNumber(text, number, unit, words)


def split_at(text: str, separator: str) -> list[str]:
    """The pieces of a value; two blanks stand for any run of them."""
    return GAP.split(text) if separator == COLUMNS else text.split() if separator == " " else text.split(separator)


def split_value(text: str, decimal: str) -> tuple[str, list[ListedNumber]] | None:
    """A value's separator and parts, when it is several numbers; a list may stand in brackets."""
    if len(text) > 1 and text[0] + text[-1] in BRACKETS:
        text = text[1:-1].strip()
    for separator in SEPARATORS:
        if separator not in text or separator == decimal:
            continue
        pieces = split_at(text, separator)
        if not 2 <= len(pieces) <= MOST_PARTS:
            continue
        parts = [part for part in (read_part(piece, decimal) for piece in pieces) if part is not None]
        if len(parts) == len(pieces):
            return separator, parts
    return None


def plain_mark(separator: str) -> str:
    """A separator without the blanks that only keep it apart from units (``10 mm3/s / 17 mm3/s``)."""
    return separator.strip() or separator


def shared_unit(parts: Sequence[ListedNumber]) -> Unit | None:
    """The unit of a list: its first number's, or the one behind its last that stands for all (``0.4 / 0.6 mm``)."""
    return parts[-1].unit if _closes(parts) else parts[0].unit


def _closes(parts: Sequence[ListedNumber]) -> bool:
    """Whether only the last number can have a unit."""
    return all(part.unit is None and not part.words for part in parts[:-1])


def _of_one_kind(parts: Sequence[ListedNumber]) -> bool:
    return _closes(parts) or len({part.unit.kind if part.unit else "" for part in parts}) == 1


def are_near(parts: Sequence[ListedNumber]) -> bool:
    """Whether numbers could be one setting's for several tools."""
    numbers = [part.number for part in parts]
    if not _of_one_kind(parts):
        return False
    low, high = min(numbers), max(numbers)
    return low == high or (low > 0 and high / low <= NEAR)


def likeness(parts: Sequence[ListedNumber]) -> int:
    """How much numbers look like one setting's for several tools: 2 where they are the same, 1 where they are near, 0
    where two nozzles may account for it, -2 where nothing does.
    """
    low, high = min(part.number for part in parts), max(part.number for part in parts)
    if are_near(parts):
        return 2 if low == high else 1
    return 0 if _of_one_kind(parts) and low > 0 and high / low <= TWO_NOZZLES else -2


def find_lists(values: Iterable[str], decimal: str) -> Lists:
    """What each separator is used for. One that ever parts unlike numbers packs them, unless it mostly makes lists."""
    near: Counter[str] = Counter()
    apart: dict[str, float] = defaultdict(float)
    lengths: Mapping[str, Counter[int]] = defaultdict(Counter)
    for value in values:
        divided = split_value(value, decimal)
        if divided is None:
            continue
        separator, parts = plain_mark(divided[0]), divided[1]
        degree = likeness(parts)
        near[separator] += max(degree, 0)
        apart[separator] += max(-degree, 0) + (degree == 0 and FAR)
        if degree >= 0:
            lengths[separator][len(parts)] += 1
    tools = tuple(mark for mark, times in near.most_common() if times > apart[mark])
    total: Counter[int] = Counter()
    for mark in tools:
        total += lengths[mark]
    packed = tuple(mark for mark in sorted(apart, key=lambda one: -apart[one]) if apart[mark])
    return Lists(tools, packed, total.most_common(1)[0][0] if total else 0)
