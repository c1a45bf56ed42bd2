"""Designs and what they say, against a published table, a handbook's worked example and a library."""

from itertools import combinations, product
from math import prod

import numpy as np
import pytest

from profilesmith.coupon.active_factors import (
    ACTIVE,
    ALL_INTERACT,
    INTERACTS,
    MOST_ACTIVE,
    NOISE,
    NOISE_PRINTS,
    SPREAD,
    SPREAD_OF_TWO,
    active_chances,
)
from profilesmith.coupon.designs import aliases, design, fraction, possible_rows, twelve
from profilesmith.coupon.effects import contrasts, pseudo_error, ranked

# Plackett and Burman, Biometrika 33 (1946) 305, their row for N = 12; from memory, and held below by what it must
# fulfil.
FIRST_ROW = "++-+++---+-"
# NIST/SEMATECH e-Handbook 5.6.1, an eddy current probe, 2^3 in standard order; the eight data are from memory, the mean
# and the effects are those that the handbook prints.
REACTOR = "61 53 63 61 53 56 54 61 69 61 94 93 66 60 95 98 56 63 70 65 59 55 67 65 44 45 78 77 49 42 81 82"
NIST = (1.70, 4.57, 0.55, 3.39, 1.51, 4.59, 0.67, 4.29)


def products(rows: tuple[tuple[int, ...], ...]) -> list[list[int]]:
    """X'X."""
    columns = list(zip(*rows, strict=True))
    return [[sum(a * b for a, b in zip(one, other, strict=True)) for other in columns] for one in columns]


def diagonal(size: int, value: int) -> list[list[int]]:
    return [[value if row == column else 0 for column in range(size)] for row in range(size)]


def test_twelve_rows_are_the_published_ones() -> None:
    rows = twelve(11)
    assert "".join("+" if level > 0 else "-" for level in rows[0]) == FIRST_ROW
    assert rows[11] == (-1,) * 11
    assert {row[1:] + row[:1] for row in rows[:11]} == set(rows[:11])  # each a turn of the first
    assert products(rows) == diagonal(11, 12)


def test_twelve_rows_are_those_of_pydoe() -> None:
    """pydoe 1.6 writes the same rows with all signs changed and the columns from the other end."""
    import pydoe  # a second, which every process of a run would take for every file

    theirs = {tuple(-int(level) for level in reversed(row)) for row in pydoe.pbdesign(11)}
    assert theirs == set(twelve(11))


@pytest.mark.parametrize(("factors", "words"), [(4, "a b c abc"), (5, "a b c ab ac"), (7, "a b c ab ac bc abc")])
def test_eight_rows_are_those_of_pydoe(factors: int, words: str) -> None:
    import pydoe  # a second, which every process of a run would take for every file

    theirs = {tuple(int(level) for level in row) for row in pydoe.fracfact(words)}
    assert set(fraction(8, factors)) == theirs


def test_half_fraction_of_the_handbook() -> None:
    """NIST/SEMATECH e-Handbook, the file 2to4m1: D = ABC."""
    signs = ["----", "+--+", "-+-+", "++--", "--++", "+-+-", "-++-", "++++"]
    assert ["".join("+" if level > 0 else "-" for level in row) for row in fraction(8, 4)] == signs


@pytest.mark.parametrize("factors", range(2, 12))
def test_every_design_is_balanced(factors: int) -> None:
    assert possible_rows(factors)
    for number in possible_rows(factors):
        rows = design(factors, number)
        assert rows is not None
        assert products(rows) == diagonal(factors, number)
        assert all(sum(column) == 0 for column in zip(*rows, strict=True))


def test_there_is_no_design_for_too_many() -> None:
    assert design(12, 12) is None
    assert design(8, 8) is None


def test_aliases_of_twelve_rows_are_thirds() -> None:
    """In Plackett and Burman's twelve rows every interaction of two others adds a third of itself, up or down."""
    assert {round(abs(item.share), 12) for item in aliases(twelve(7))} == {round(1 / 3, 12)}
    assert len(aliases(twelve(7))) == 7 * 15
    assert {item.share for item in aliases(fraction(8, 7))} == {1.0}
    assert aliases(fraction(8, 4)) == []


def test_effects_of_the_handbook() -> None:
    base = fraction(8, 3)
    words = {"1": (0,), "2": (1,), "3": (2,), "12": (0, 1), "13": (0, 2), "23": (1, 2), "123": (0, 1, 2)}
    columns = []
    for factors in words.values():
        column = [1] * 8
        for factor in factors:
            column = [level * row[factor] for level, row in zip(column, base, strict=True)]
        columns.append(column)
    effects = dict(zip(words, contrasts(columns, NIST), strict=True))
    assert sum(NIST) / 8 == pytest.approx(2.65875, abs=1e-5)
    assert effects["1"] == pytest.approx(3.1025, abs=1e-5)
    assert effects["2"] == pytest.approx(-0.8675, abs=1e-5)
    assert effects["3"] == pytest.approx(0.2125, abs=1e-5)
    assert effects["23"] == pytest.approx(0.2975, abs=1e-5)
    assert max(effects, key=lambda word: abs(effects[word])) == "1"


def test_pseudo_error() -> None:
    """Lenth (1989): 1.5 x the median of those below 2.5 x (1.5 x the median of all), by hand on the handbook's effects.

    All seven have the median 0.2475, so 3.1025 lies above 2.5 x 0.37125; the other six have the median 0.23.
    """
    assert pseudo_error([3.1025, -0.8675, 0.2125, 0.1275, 0.2475, 0.2975, 0.1425]) == pytest.approx(0.345)
    assert pseudo_error([0.0, 0.0, 0.0]) == 0.0


def test_chances_of_factors_are_the_same_by_plain_matrices() -> None:
    """Every model's marginal likelihood by numpy's own determinants and inverses: |V|^-1/2 (y' V^-1 y + s)^-(n / 2)."""
    rows = twelve(4)
    columns = np.array(rows, float)
    grades = [0.0, 2.0, 1.0, 2.0, 0.0, 0.0, 2.0, 2.0, 1.0, 0.0, 2.0, 0.0]
    left = np.array(grades) - np.mean(grades)
    pairs = list(combinations(range(4), 2))
    weights, found = 0.0, np.zeros(4)
    for size in range(MOST_ACTIVE + 1):
        for factors in combinations(range(4), size):
            own = list(combinations(factors, 2))
            kinds = [([], 1 - INTERACTS - ALL_INTERACT), (own, ALL_INTERACT)]
            for named, share in [*kinds, *(([pair], INTERACTS / len(pairs)) for pair in pairs)]:
                both = [columns[:, one] * columns[:, other] for one, other in named]
                used = [columns[:, factor] for factor in factors] + both
                spreads = [SPREAD] * size + [SPREAD_OF_TWO] * len(both)
                spread = np.eye(12)
                for wide, column in zip(spreads, used, strict=True):
                    spread = spread + wide**2 * np.outer(column, column)
                prior = ACTIVE**size * (1 - ACTIVE) ** (4 - size)
                prior *= share
                rest = left @ np.linalg.inv(spread) @ left + NOISE_PRINTS * NOISE
                weight = prior * np.linalg.det(spread) ** -0.5 * rest ** (-(11 + NOISE_PRINTS) / 2)
                weights += weight
                found[list(factors)] += weight
    assert active_chances(rows, grades) == pytest.approx(list(found / weights), abs=1e-9)


def test_the_factors_of_a_reactor_are_found_in_twelve_of_its_runs() -> None:
    """G. E. P. Box, W. G. Hunter and J. S. Hunter, Statistics for Experimenters (1978), the reactor of 2^5 runs; B, D,
    E and their interactions matter, and Box and Meyer (1993) find these three in twelve runs of it.

    The 32 data are from memory; the effects that the book prints come of them. Which columns of twelve rows stand for
    the five factors is arbitrary: every fifth choice is tried.
    """
    reactor = [int(text) for text in REACTOR.split()]

    def run(levels: tuple[int, ...]) -> float:
        return float(reactor[sum(1 << place for place, level in enumerate(levels) if level > 0)])

    every = fraction_of_all(5)
    columns = list(zip(*every, strict=True))
    words = {"b": [1], "d": [3], "e": [4], "bd": [1, 3], "de": [3, 4]}
    products_of = [tuple(prod(columns[at][row] for at in places) for row in range(32)) for places in words.values()]
    assert contrasts(products_of, [run(row) for row in every]) == [19.5, 10.75, -6.25, 13.25, -11.0]
    found = []
    for chosen in list(combinations(range(11), 5))[::5]:
        rows = [tuple(row[at] for at in chosen) for row in twelve(11)]
        found.append({effect.factor for effect in ranked(rows, list(map(run, rows)))[:3]} == {1, 3, 4})
    assert sum(found) >= 0.85 * len(found)


def fraction_of_all(factors: int) -> list[tuple[int, ...]]:
    """Every row, in standard order: the first factor changes fastest."""
    return [levels[::-1] for levels in product((-1, 1), repeat=factors)]


def test_an_interaction_is_not_taken_for_a_factor() -> None:
    """Two factors and their interaction, no noise: by size alone a third one would come close behind."""
    rows = twelve(7)
    results = [2.0 * row[0] + 2.0 * row[1] + 1.5 * row[0] * row[1] for row in rows]
    first = ranked(rows, results)
    assert {effect.factor for effect in first[:2]} == {0, 1}
    assert all(effect.chance > 0.9 for effect in first[:2])
    assert all(effect.chance < 0.2 for effect in first[2:])


def test_many_factors_are_ranked_too() -> None:
    rows = twelve(11)
    first = ranked(rows, [float(row[4] > 0) + float(row[9] > 0) for row in rows])
    assert {effect.factor for effect in first[:2]} == {4, 9}


def test_ranking_is_by_size() -> None:
    rows = fraction(4, 3)
    assert next(effect.factor for effect in ranked(rows, [0.0, 0.0, 2.0, 2.0])) == 1
    assert [effect.size for effect in ranked(rows, [1.0] * 4)] == [0.0] * 3
