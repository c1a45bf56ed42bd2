"""How likely each factor of a screen is to matter, over all small models: which few factors, with or without one
interaction.

Each model is a least-squares one on the grades, in the Bayesian form: effects are drawn about zero with a spread in
noise deviations, the noise is integrated out, and the models are weighed by what is left of the grades (G. E. P. Box
and R. D. Meyer, "Finding the Active Factors in Fractionated Screening Experiments", J. Quality Technology 25 (1993) 94,
from memory). In twelve Plackett-Burman rows an interaction of two factors leaks a third of itself into every other one;
models that hold it take that away again. Others hold all interactions of the factors that matter, as Box and Meyer's
do. The numbers were chosen on other seeds than those that the simulation is
measured on, and hardly matter.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import combinations
from math import exp, log
from operator import mul

from profilesmith.coupon.designs import Row
from profilesmith.foundation.named_tuple import NamedTuple

MOST_ACTIVE = 3
SPREAD, SPREAD_OF_TWO = 1.5, 0.75  # of a factor's and an interaction's coefficients, in noise deviations
ACTIVE, INTERACTS, ALL_INTERACT = 0.28, 0.4, 0.1
"""How likely each factor matters, any one interaction of two, all interactions of those that matter."""
NOISE_PRINTS, NOISE = (
    1.0,
    0.3,
)  # the noise is taken to be about as large as so much squared, as if so many prints had said so
MOST_PAIRS = 28  # interactions are looked at for up to eight factors; more would take seconds


class _Model(NamedTuple):
    """factors: that matter in it. fit: rows of L, with the part of the grades that it explains |L y|^2. weight:
    logarithm.
    """

    factors: tuple[int, ...]
    fit: tuple[tuple[float, ...], ...]
    weight: float


def active_chances(rows: Sequence[Row], results: Sequence[float]) -> list[float]:
    """For each factor the share of the models, by their weight, in which it matters."""
    middle = sum(results) / len(results)
    left = [result - middle for result in results]
    whole = sum(value * value for value in left) + NOISE_PRINTS * NOISE
    power = (len(rows) - 1 + NOISE_PRINTS) / 2
    scored = []
    for model in _models(tuple(map(tuple, rows))):
        explained = sum(sum(map(mul, line, left)) ** 2 for line in model.fit)
        scored.append((model.weight - power * log(whole - explained), model.factors))
    top = max(score for score, _ in scored)
    total, shares = 0.0, [0.0] * len(rows[0])
    for score, factors in scored:
        weight = exp(score - top)
        total += weight
        for factor in factors:
            shares[factor] += weight
    return [share / total for share in shares]


@lru_cache(maxsize=4)
def _models(rows: tuple[Row, ...]) -> tuple[_Model, ...]:
    return tuple(_every(rows))


def _every(rows: tuple[Row, ...]) -> Iterator[_Model]:
    columns = list(zip(*rows, strict=True))
    count = len(columns)
    pairs = list(combinations(range(count), 2))
    pairs = pairs if len(pairs) <= MOST_PAIRS else []
    for size in range(MOST_ACTIVE + 1):
        for factors in combinations(range(count), size):
            prior = size * log(ACTIVE) + (count - size) * log(1 - ACTIVE)
            named = [columns[factor] for factor in factors]
            yield _model(factors, named, [SPREAD] * size, prior + log(1 - INTERACTS - ALL_INTERACT))
            own = [tuple(map(mul, columns[one], columns[other])) for one, other in combinations(factors, 2)]
            spreads = [*[SPREAD] * size, *[SPREAD_OF_TWO] * len(own)]
            yield _model(factors, [*named, *own], spreads, prior + log(ALL_INTERACT))
            for one, other in pairs:
                both = tuple(map(mul, columns[one], columns[other]))
                spreads = [*[SPREAD] * size, SPREAD_OF_TWO]
                yield _model(factors, [*named, both], spreads, prior + log(INTERACTS / len(pairs)))


def _model(factors: tuple[int, ...], columns: list[tuple[int, ...]], spreads: list[float], prior: float) -> _Model:
    """Orthogonal steps (Cholesky): with V = I + X S X', y' V^-1 y = y'y - |L y|^2, and log |V| is taken off the
    weight.
    """
    mean = [sum(column) / len(column) for column in columns]
    plain = [[value - middle for value in column] for column, middle in zip(columns, mean, strict=True)]
    done: list[tuple[float, ...]] = []
    lower: list[list[float]] = []
    weight = prior
    for number, column in enumerate(plain):
        line: list[float] = []
        left: list[float] = list(column)
        for before in range(number):
            dot = sum(map(mul, column, plain[before]))
            share = (dot - sum(map(mul, line, lower[before]))) / lower[before][before]
            line.append(share)
            left = [value - share * other for value, other in zip(left, done[before], strict=True)]
        size = 1 / spreads[number] ** 2 + sum(map(mul, column, column)) - sum(share * share for share in line)
        root = size**0.5
        lower.append([*line, root])
        done.append(tuple(value / root for value in left))
        weight -= log(root) + log(spreads[number])
    return _Model(factors, tuple(done), weight)
