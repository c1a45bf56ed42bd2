"""Tables of three columns or more: which of them holds the keys and which the values.

Comes in: lines. Goes out: forms of their rows. Knows no settings.
"""

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise

from profilesmith.foundation.quantity import find_unit
from profilesmith.suggest.detect_delimiters import NUMBER
from profilesmith.suggest.detect_lists import likeness, read_part
from profilesmith.text.cuts import COLUMNS, GAP

BORDERS = (";", "|", "\t", ",", COLUMNS)
FEWEST_FURTHER = 4  # rows of a table that have fewer columns, as where one value stands for all tools
FEWEST_ROWS, PART = 12, 0.6  # rows of a table, and the share of a column's cells that must be alike
_NUMBER = re.compile(rf"{NUMBER}(?:\s?[^\s\d]{{1,8}})?")
_SIGNED = re.compile(rf"{NUMBER} ([^\W\d_]{{1,2}})")
_CODE = re.compile(r"(?=\S*\d)\S{1,10}|[A-Z][A-Z.]{0,5}")
_WORD = re.compile(r"[\"']?[^\W\d_][\w/-]{0,11}[\"']?")
_DASH = re.compile(r"[-–—.\"″]?|''|<-+|->|=|ditto|do\.|same|idem|dito")
_OLD = re.compile(
    r"\b(?:before|brought|was|old|former|earlier|last|default|usual|min|max|least|most|limits?|range"
    r"|vorher|alt|früher|avant|ancien)",
    re.I,
)
FULL = 0.6  # of a column's cells
NEAR_PART = 0.7  # of the rows whose two numbers are near each other where they are two tools'


class _Column:
    """One column's cells, without those that are empty."""

    def __init__(self, cells: Sequence[str], head: str) -> None:
        quoted = [cell for cell in cells if len(cell) > 1 and cell[0] == cell[-1] == '"']
        self.quoted = len(quoted) * 4 > 3 * len([cell for cell in cells if cell])
        cells = [cell.strip('"') for cell in cells]
        self.cells, self.head = cells, head
        self.full = [cell for cell in cells if not _DASH.fullmatch(cell)]
        size = len(self.full) or 1
        self.numbers = sum(bool(_NUMBER.fullmatch(cell)) for cell in self.full) / size
        self.units = sum(find_unit(cell) is not None for cell in self.full) / size
        coded = [cell for cell in self.full if _CODE.fullmatch(cell) and not _NUMBER.fullmatch(cell)]
        self.codes = len(coded) / size
        self.distinct = len(set(self.full)) / size
        self.filled = len(self.full) / (len(cells) or 1)
        signs = {match[1] for cell in self.full if (match := _SIGNED.fullmatch(cell))}
        self.signed = len(signs) > 2 and any(find_unit(sign) is None for sign in signs)
        counts = [int(cell.strip(".)")) for cell in self.full if cell.strip(".)").isdigit()]
        rising = sum(one < other for one, other in pairwise(counts))
        self.counted = len(counts) == len(self.full) > 1 and rising == len(counts) - 1
        words = sum(len(cell) > 3 and any(map(str.isalpha, cell)) for cell in self.full) / size
        self.worded = words >= PART and not self.codes >= PART

    @property
    def is_key(self) -> bool:
        named = self.codes >= PART or self.worded or all(map(str.isdigit, self.full))
        return not self.counted and self.filled > 0.9 and self.distinct > 0.8 and named

    @property
    def is_value(self) -> bool:
        plain = self.numbers >= PART or (self.units < PART and self.numbers >= 0.4)
        return not self.counted and self.filled > 0.25 and plain and self.codes <= self.numbers + 0.3


def column_forms(bodies: Sequence[str]) -> Iterator[tuple[str, ...]]:
    """The forms of a table's rows; none where there is no table of three columns and more."""
    for border in BORDERS:
        rows = [row for row in (_cells(body, border) for body in bodies) if len(row) >= 3 and sum(map(bool, row)) > 1]
        widths = Counter(map(len, rows))
        width, times = widths.most_common(1)[0] if widths else (0, 0)
        further = [one for one, many in widths.items() if one != width and many >= FEWEST_FURTHER]
        if times < FEWEST_ROWS or (times + sum(widths[one] for one in further)) < PART * sum(widths.values()):
            continue
        guesses = [list(_placings([row for row in rows if len(row) == one])) for one in (width, *further)]
        more = [places for guess in guesses[1:] for places in guess[:1]]
        for main in guesses[0]:
            placings = sorted((one for places in (main, *more) for one in places), key=len, reverse=True)
            yield tuple(_form(one, border) for one in placings)
        if guesses[0]:
            return


def _cells(body: str, border: str) -> list[str]:
    return [cell.strip() for cell in (GAP.split(body) if border == COLUMNS else body.split(border))]


def _placings(table: list[list[str]]) -> Iterator[list[list[str]]]:
    """What each column holds, for the rows as they are and for those with one value for all tools."""
    first = next((at for at, row in enumerate(table) if any(_NUMBER.fullmatch(cell.strip('"')) for cell in row)), 0)
    heads = table[first - 1] if first else [""] * len(table[0])
    columns = [_Column(cells, head) for cells, head in zip(zip(*table[first:], strict=True), heads, strict=True)]
    keys = [at for at, column in enumerate(columns) if column.is_key]
    coded = [at for at in keys if columns[at].codes >= PART]
    values = [at for at, column in enumerate(columns) if column.is_value and not _OLD.search(column.head)]
    worded = [at for at in keys if columns[at].worded]
    for key in (coded or worded or keys)[:1]:
        mine = [at for at in values if at != key]
        chosen = _tools(columns, mine) if mine else []
        # A further full column of numbers may be another tool's: which of them counts, nobody knows.
        if chosen and all(at in chosen or columns[at].filled < FULL for at in mine):
            yield list(_rows(columns, key, chosen))


def _tools(columns: list[_Column], values: list[int]) -> list[int]:
    """The columns of values that are those of several tools: neighbours with near numbers in most rows."""
    chosen = values[:1]
    for at in values[1:]:
        if at != chosen[-1] + 1:
            break
        rows = zip(columns[chosen[-1]].cells, columns[at].cells, strict=True)
        parts = [(read_part(one, ","), read_part(two, ",")) for one, two in rows]
        both = [(one, two) for one, two in parts if one is not None and two is not None]
        near = sum(likeness(numbers) >= 0 for numbers in both)
        if not both or near < NEAR_PART * len(both):
            break
        chosen.append(at)
    return chosen


def _rows(columns: list[_Column], key: int, values: list[int]) -> Iterator[list[str]]:
    places = ["{key}" if at == key else "{value}" if at in values else "{any}" for at in range(len(columns))]
    places = [
        "" if not column.full and not any(column.cells) else place
        for column, place in zip(columns, places, strict=True)
    ]
    if columns[key].quoted:
        places[key] = '"{key}"'
    if columns[values[0]].signed:
        yield [f"{place} {{any}}" if at == values[0] else place for at, place in enumerate(places)]
    dashes = dict.fromkeys(cell for at in values[1:] for cell in columns[at].cells if cell and _DASH.fullmatch(cell))
    for dash in dashes:
        yield [dash if at in values[1:] else place for at, place in enumerate(places)]
    if len(values) > 1 and any(not cell for cell in columns[values[1]].cells):
        yield ["" if at in values[1:] else place for at, place in enumerate(places)]
    yield places


def _form(places: list[str], border: str) -> str:
    return border.join(places)
