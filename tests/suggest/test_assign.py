"""The assignment of settings to keys is the best one: held against all others, on small cases.

Outside check: the standard teaching example of the assignment problem with costs 82 83 69 92 / 77 37 49 92 / 11 69 5 86
/ 8 9 98 23 has the least cost 140 (widely published; from memory, no source looked up).
"""

import random
from itertools import permutations

import pytest

from profilesmith.suggest.assign import assign, regrets


def total(scores: dict[str, dict[int, float]], chosen: dict[str, int]) -> float:
    return sum(scores[row][col] for row, col in chosen.items())


def best_of_all(scores: dict[str, dict[int, float]], columns: int) -> float:
    """By trying every way to give each row a column of its own or none."""
    rows = list(scores)
    places = [*range(columns), *([-1] * len(rows))]
    return max(
        sum(max(0.0, scores[row].get(col, 0.0)) for row, col in zip(rows, order, strict=True) if col >= 0)
        for order in set(permutations(places, len(rows)))
    )


def test_a_published_example() -> None:
    costs = [[82, 83, 69, 92], [77, 37, 49, 92], [11, 69, 5, 86], [8, 9, 98, 23]]
    scores = {f"row {at}": {col: 200.0 - cost for col, cost in enumerate(row)} for at, row in enumerate(costs)}
    chosen = assign(scores)
    assert sum(200 - scores[row][col] for row, col in chosen.items()) == 140


@pytest.mark.parametrize("seed", range(60))
def test_it_is_the_best(seed: int) -> None:
    chance = random.Random(seed)
    columns = chance.randint(1, 5)
    scores = {
        f"row {row}": {
            col: chance.choice([chance.uniform(-2, 9), float(chance.randint(-2, 9))])
            for col in range(columns)
            if chance.random() < 0.7
        }
        for row in range(chance.randint(1, 4))
    }
    chosen, most = assign(scores), best_of_all(scores, columns)
    assert len(set(chosen.values())) == len(chosen)
    assert all(scores[row][col] > 0 for row, col in chosen.items())
    assert total(scores, chosen) == pytest.approx(most)
    lost = regrets(scores)
    assert {row: col for row, (col, _) in lost.items()} == chosen
    for row, (col, regret) in lost.items():
        apart = {**scores, row: {at: score for at, score in scores[row].items() if at != col}}
        assert regret == pytest.approx(most - best_of_all(apart, columns), abs=1e-9)


def test_greed_would_lose() -> None:
    assert assign({"a": {0: 10.0, 1: 9.0}, "b": {0: 9.0}}) == {"a": 1, "b": 0}


def test_nothing_to_assign() -> None:
    assert assign({}) == {}
    assert assign({"a": {}, "b": {3: -1.0}}) == {}


@pytest.mark.parametrize("rows", [("a", "b", "c"), ("c", "a", "b")])
@pytest.mark.parametrize("columns", [(0, 1, 2), (2, 1, 0), (1, 2, 0)])
def test_equal_scores_go_to_the_earlier_row_and_the_smaller_column(
    rows: tuple[str, ...], columns: tuple[int, ...]
) -> None:
    """However a mapping was filled: a proposal must not change between two runs."""
    scores = {row: dict.fromkeys(columns, 5.0) for row in rows}
    assert assign(scores) == dict(zip(rows, (0, 1, 2), strict=True))
