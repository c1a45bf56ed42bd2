"""Which settings to print with when several may matter: rows of levels, -1 and +1, and which effects they mix up.

Twelve rows: R. L. Plackett and J. P. Burman, "The Design of Optimum Multifactorial Experiments", Biometrika 33 (1946)
305. Eight rows and sixteen: fractions of two-level factorials, generators as in the NIST/SEMATECH e-Handbook,
5.3.3.4.7.
"""

from collections.abc import Sequence
from itertools import combinations, product

from profilesmith.foundation.named_tuple import NamedTuple

Row = tuple[int, ...]
MOST_FACTORS = 11
_FIRST = "++-+++---+-"  # Plackett and Burman's row for twelve; the others are its turns, and one of all -
# (base factors, generators of further factors as products of base factors), by rows and then by factors.
_GENERATORS: dict[int, dict[int, tuple[str, ...]]] = {
    4: {2: (), 3: ("ab",)},
    8: {3: (), 4: ("abc",), 5: ("ab", "ac"), 6: ("ab", "ac", "bc"), 7: ("ab", "ac", "bc", "abc")},
    16: {
        4: (),
        5: ("abcd",),
        6: ("abc", "bcd"),
        7: ("abc", "bcd", "acd"),
        8: ("bcd", "acd", "abc", "abd"),
    },
}
_BASES = {4: 2, 8: 3, 16: 4}


class Alias(NamedTuple):
    """An interaction of two factors that adds ``share`` of itself to what a factor seems to do."""

    factor: int
    pair: tuple[int, int]
    share: float


def twelve(factors: int) -> tuple[Row, ...]:
    """Plackett and Burman's twelve rows for up to eleven factors."""
    first = [1 if sign == "+" else -1 for sign in _FIRST]
    rows = [tuple(first[-turn:] + first[:-turn]) for turn in range(11)]
    return tuple(row[:factors] for row in (*rows, (-1,) * 11))


def fraction(rows: int, factors: int) -> tuple[Row, ...]:
    """A fraction of a two-level factorial in 4, 8 or 16 rows. Raises KeyError where there is none."""
    generators = _GENERATORS[rows][factors]
    made = []
    for levels in product((-1, 1), repeat=_BASES[rows]):
        base = levels[::-1]  # the first factor changes fastest: the standard order
        words = ["abcd".index(letter) for word in generators for letter in word]
        further, at = [], 0
        for word in generators:
            sign = 1
            for index in words[at : at + len(word)]:
                sign *= base[index]
            at += len(word)
            further.append(sign)
        made.append((*base, *further)[:factors])
    return tuple(made)


def design(factors: int, rows: int) -> tuple[Row, ...] | None:
    """The rows for a number of factors; None where that many rows cannot hold them."""
    if rows == 12:
        return twelve(factors) if 2 <= factors <= MOST_FACTORS else None
    if factors not in _GENERATORS.get(rows, {}):
        return None
    return fraction(rows, factors)


def possible_rows(factors: int) -> list[int]:
    """The numbers of rows that hold so many factors, the fewest first."""
    return [rows for rows in (4, 8, 12, 16) if design(factors, rows) is not None]


def aliases(rows: Sequence[Row], least: float = 0.01) -> list[Alias]:
    """What the design mixes into each factor: the interactions of two others, with their shares."""
    aliases = []
    factors = len(rows[0])
    for factor in range(factors):
        for one, other in combinations([item for item in range(factors) if item != factor], 2):
            share = sum(row[factor] * row[one] * row[other] for row in rows) / len(rows)
            if abs(share) > least:
                aliases.append(Alias(factor, (one, other), share))
    return aliases
