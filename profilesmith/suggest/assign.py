"""The best choice of a slot for every setting, all at once: an exact assignment of greatest total score.

Shortest augmenting paths on a sparse graph (Kuhn 1955; in this form Jonker and Volgenant 1987, Computing 38, 325-340).
Libraries for this exist; those looked at need numpy, or take longer to import than this takes to run.
"""

from collections.abc import Mapping
from heapq import heappop, heappush


def assign(scores: Mapping[str, Mapping[int, float]]) -> dict[str, int]:
    """Rows (settings) to columns (slots) so that the sum of scores is greatest; scores of 0 and less are left out.

    scores: for each row the columns that may be taken, with their scores. Ties go to the smaller column.
    """
    rows = [row for row in scores if any(score > 0 for score in scores[row].values())]
    if not rows:
        return {}
    top = max(score for row in rows for score in scores[row].values())
    # A row may stay empty: it has a column of its own that is worth nothing.
    cost = {row: {col: top - score for col, score in scores[row].items() if score > 0} for row in rows}
    first = 1 + max(col for row in rows for col in cost[row])
    for number, row in enumerate(rows):
        cost[row][first + number] = top
    taken: dict[int, str] = {}
    held: dict[str, int] = {}
    row_price = dict.fromkeys(rows, 0.0)
    col_price: dict[int, float] = {}
    for row in rows:
        _augment(row, cost, taken, held, row_price, col_price)
    return {row: col for row, col in held.items() if col < first}


def regrets(scores: Mapping[str, Mapping[int, float]]) -> dict[str, tuple[int, float]]:
    """For each row with a column: that column, and by how much the sum of scores falls when the two are kept apart."""
    held = assign(scores)
    full = _sum(scores, held)
    return {row: (col, full - _sum(scores, assign(_apart(scores, row, col)))) for row, col in held.items()}


def _apart(scores: Mapping[str, Mapping[int, float]], row: str, col: int) -> dict[str, Mapping[int, float]]:
    return {**scores, row: {at: score for at, score in scores[row].items() if at != col}}


def _sum(scores: Mapping[str, Mapping[int, float]], held: Mapping[str, int]) -> float:
    return sum(scores[row][col] for row, col in held.items())


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
