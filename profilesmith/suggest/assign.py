"""The best choice of a slot for every setting, all at once: an exact assignment of greatest total score.

Shortest augmenting paths on a sparse graph (Kuhn 1955; in this form Jonker and Volgenant 1987, Computing 38, 325-340).
Libraries for this exist; those looked at need numpy, or take longer to import than this takes to run.
"""

from collections.abc import Mapping
from heapq import heappop, heappush

from profilesmith.foundation.named_tuple import NamedTuple

Scores = Mapping[str, Mapping[int, float]]


class _Assignment(NamedTuple):
    """The cheapest one, with the prices that prove it: no row gets a column for less than both are worth.

    first: the columns from which on each row has one of its own, in which it stays empty. A free column is worth 0.
    """

    cost: Mapping[str, Mapping[int, float]]
    first: int
    taken: dict[int, str]
    held: dict[str, int]
    row_price: dict[str, float]
    col_price: dict[int, float]


def assign(scores: Scores) -> dict[str, int]:
    """Rows (settings) to columns (slots) so that the sum of scores is greatest; scores of 0 and less are left out.

    scores: for each row the columns that may be taken, with their scores. Ties go to the smaller column.
    """
    best = _assignment(scores)
    return {row: col for row, col in best.held.items() if col < best.first}


def _assignment(scores: Scores) -> _Assignment:
    rows = [row for row in scores if any(score > 0 for score in scores[row].values())]
    top = max((score for row in rows for score in scores[row].values()), default=0.0)
    # A row may stay empty: it has a column of its own that is worth nothing.
    cost = {row: {col: top - score for col, score in scores[row].items() if score > 0} for row in rows}
    first = 1 + max((col for row in rows for col in cost[row]), default=0)
    for number, row in enumerate(rows):
        cost[row][first + number] = top
    best = _Assignment(cost, first, {}, {}, dict.fromkeys(rows, 0.0), {})
    for row in rows:
        _augment(row, cost, *best[2:])
    return best


def regrets(scores: Scores) -> dict[str, tuple[int, float]]:
    """For each row with a column: that column, and by how much the sum of scores falls when the two are kept apart."""
    best = _assignment(scores)
    return {row: (col, _regret(row, col, best)) for row, col in best.held.items() if col < best.first}


def _regret(start: str, own: int, best: _Assignment) -> float:
    """What it costs when a row leaves its column: the shortest path by which rows change columns until somebody has
    that one, where solving all anew takes a path for each row. Once a free column is reached, any column may be left
    free for its worth.
    """
    distance: dict[int, float] = {}
    done: set[int] = set()
    heap: list[tuple[float, int]] = []

    def reach(col: int, length: float) -> None:
        if col not in done and length < distance.get(col, float("inf")):
            distance[col] = length
            heappush(heap, (length, col))

    row, base, is_free_reached = start, 0.0, False
    while True:
        for col, price in best.cost[row].items():
            if row != start or col != own:
                reach(col, base + price - best.row_price[row] - best.col_price.get(col, 0.0))
        col = -1
        while col not in best.taken:
            base, col = heappop(heap)
            if col in done:
                col = -1
            elif col not in best.taken and not is_free_reached:
                is_free_reached = True
                for other in best.taken:
                    reach(other, base - best.col_price.get(other, 0.0))
        if col == own:
            return base
        done.add(col)
        row = best.taken[col]


def _augment(
    start: str,
    cost: Mapping[str, Mapping[int, float]],
    taken: dict[int, str],
    held: dict[str, int],
    row_price: dict[str, float],
    col_price: dict[int, float],
) -> None:
    """Find a cheapest alternating path from a free row to a free column, and turn it over."""
    distance: dict[int, float] = {}
    previous: dict[int, str] = {}
    done: dict[int, float] = {}
    heap: list[tuple[float, int]] = []
    row, base = start, 0.0
    while True:
        for col, price in cost[row].items():
            length = base + price - row_price[row] - col_price.get(col, 0.0)
            if col not in done and length < distance.get(col, float("inf")) - 1e-12:
                distance[col], previous[col] = length, row
                heappush(heap, (length, col))
        length, col = heappop(heap)
        while col in done:
            length, col = heappop(heap)
        done[col] = base = length
        if col not in taken:
            break
        row = taken[col]
    _reprice(start, done, base, taken, row_price, col_price)
    while True:
        row = previous[col]
        taken[col] = row
        col, held[row] = held.get(row, 0), col
        if row == start:
            return


def _reprice(
    start: str,
    done: Mapping[int, float],
    reach: float,
    taken: Mapping[int, str],
    row_price: dict[str, float],
    col_price: dict[int, float],
) -> None:
    row_price[start] += reach
    for col, length in done.items():
        if col in taken:
            row_price[taken[col]] += reach - length
            col_price[col] = col_price.get(col, 0.0) - (reach - length)
