"""How many times as long: the bracket held against ruckig, points against quadrature and a list worked out apart."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilesmith.physics.answer import Bracket, NotValid
from profilesmith.physics.time_factor import (
    layer_count_factor,
    listed_time_factor,
    mean_time_factor,
    mixture_time_factor,
    time_factor_bracket,
)
from tests.physics import oracles
from tests.physics.outside_check import point
from tests.physics.ranges import accelerations, law, lengths, speeds

LENGTHS = (0.5, 1, 2, 5, 10, 20, 50)


@pytest.mark.parametrize(
    ("mean", "factor"), [(0.5, 1.0775), (1, 1.2259), (2, 1.4883), (5, 1.9682), (10, 2.3280), (50, 2.8231)]
)
def test_factor_over_mean_length(mean: float, factor: float) -> None:
    """60 to 20 mm/s at 1000 mm/s2; values by quadrature with scipy, apart from the project."""
    assert mean_time_factor(mean, 60, 20, 1000) == pytest.approx(factor, abs=5e-5)


def test_factor_of_a_list() -> None:
    """1.854076 s and 4.565000 s by the formula of each move; the old and new totals also by ruckig."""
    assert listed_time_factor(LENGTHS, 60, 20, 1000) == pytest.approx(2.462142, rel=1e-6)
    totals = [sum(oracles.move_time(d, v, 1000) for d in LENGTHS) for v in (60, 20)]
    assert totals == pytest.approx([1.854076, 4.565000], rel=1e-6)
    assert isinstance(listed_time_factor((), 60, 20, 1000), NotValid)


def test_factor_of_a_mixture() -> None:
    assert mixture_time_factor([0.8], [3.0]) == pytest.approx(2.6)
    assert mixture_time_factor([], []) == 1
    assert mixture_time_factor([0.5, 0.5], [2.0, 4.0]) == pytest.approx(3.0)
    with pytest.raises(ValueError, match="more than the whole"):
        mixture_time_factor([0.8, 0.3], [3.0, 1.0])
    with pytest.raises(ValueError, match="every share"):
        mixture_time_factor([0.8], [])


def test_naive_bracket() -> None:
    assert time_factor_bracket(60, 20) == Bracket(1.0, 3.0)
    assert time_factor_bracket(20, 60) == Bracket(20 / 60, 1.0)
    assert time_factor_bracket(60, 60, 1000, 250) == Bracket(1.0, 2.0)
    assert time_factor_bracket(60, 60) == Bracket(1.0, 1.0)
    assert time_factor_bracket(60, 60, 250, 1000) == Bracket(0.5, 1.0)


@law
@given(st.lists(lengths, min_size=1, max_size=5), speeds, speeds, accelerations)
def test_every_list_lies_in_the_bracket(moves: list[float], old: float, new: float, a: float) -> None:
    bracket = time_factor_bracket(old, new)
    factor = point(listed_time_factor(moves, old, new, a))
    assert bracket.low - 1e-9 <= factor <= bracket.high * (1 + 1e-9)
    assert bracket.low - 1e-9 <= mean_time_factor(moves[0], old, new, a) <= bracket.high * (1 + 1e-9)


@law
@given(lengths, speeds, speeds, accelerations, accelerations)
def test_another_acceleration_lies_in_the_bracket_too(d: float, v: float, w: float, a: float, b: float) -> None:
    bracket = time_factor_bracket(v, w, a, b)
    factor = oracles.move_time(d, w, b) / oracles.move_time(d, v, a)
    assert bracket.low * (1 - 1e-6) <= factor <= bracket.high * (1 + 1e-6)


@law
@given(st.floats(0.1, 50), speeds, accelerations)
def test_a_cap_above_everything_changes_no_time(mean: float, old: float, a: float) -> None:
    assert mean_time_factor(mean, old, old, a) == 1
    assert listed_time_factor([mean], old, old, a) == 1


@law
@given(st.floats(0.1, 50), st.floats(20, 200), st.floats(0.1, 0.99), accelerations)
def test_a_lower_cap_takes_longer_and_long_moves_suffer_most(mean: float, v: float, share: float, a: float) -> None:
    factor = mean_time_factor(mean, v, v * share, a)
    assert factor >= 1 - 1e-9
    assert mean_time_factor(mean, v, v * share * 0.9, a) >= factor - 1e-9
    assert mean_time_factor(mean * 2, v, v * share, a) >= factor - 1e-9


def test_layers() -> None:
    assert layer_count_factor(0.2, 0.1) == pytest.approx(2.0)
