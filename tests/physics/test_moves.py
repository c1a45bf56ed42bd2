"""Times of moves: a table checked with ruckig, limits, and the law of many short moves checked by quadrature."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilesmith.physics.answer import NotValid
from profilesmith.physics.moves import (
    mean_move_time_s,
    move_time_s,
    peak_speed_mm_s,
)
from tests.physics import oracles
from tests.physics.outside_check import point
from tests.physics.ranges import accelerations, law, lengths, speeds

MOVES = [
    # d, v, a, v0, v1, seconds (by the formula, apart from the project; ruckig agrees)
    (10, 60, 1000, 0, 0, 0.2266667),
    (10, 20, 1000, 0, 0, 0.5200000),
    (1, 60, 1000, 0, 0, 0.06324555),
    (1, 20, 1000, 0, 0, 0.0700000),
    (10, 60, 1000, 10, 5, 0.2127083),
    (0.5, 60, 1000, 10, 5, 0.03243416),
    (2, 60, 500, 20, 0, 0.09856406),
    (50, 20, 1000, 0, 0, 2.520000),
]


@pytest.mark.parametrize(("d", "v", "a", "v0", "v1", "seconds"), MOVES)
def test_time(d: float, v: float, a: float, v0: float, v1: float, seconds: float) -> None:
    assert move_time_s(d, v, a, v0, v1) == pytest.approx(seconds, rel=5e-7)
    assert move_time_s(d, v, a, v0, v1) == pytest.approx(oracles.move_time(d, v, a, v0, v1), rel=1e-12)


@pytest.mark.parametrize(
    ("d", "v", "a", "v0", "v1", "peak"),
    [
        (1, 60, 1000, 0, 0, 31.6228),
        (0.5, 60, 1000, 10, 5, 23.7171),
        (2, 60, 500, 20, 0, 34.6410),
        (10, 60, 1000, 0, 0, 60),
    ],
)
def test_peak_speed(d: float, v: float, a: float, v0: float, v1: float, peak: float) -> None:
    assert peak_speed_mm_s(d, v, a, v0, v1) == pytest.approx(peak, rel=1e-5)


@law
@given(lengths, speeds, accelerations, st.floats(0, 1), st.floats(0, 1))
def test_any_move_against_ruckig(d: float, v: float, a: float, enter: float, leave: float) -> None:
    v0, v1 = enter * v, leave * v
    ours = move_time_s(d, v, a, v0, v1)
    possible = abs(v1**2 - v0**2) <= 2 * a * d
    assert isinstance(ours, NotValid) == (not possible)
    if not isinstance(ours, NotValid):
        # ruckig's own numbers lose digits when the whole move is one ramp.
        assert ours == pytest.approx(oracles.move_time(d, v, a, v0, v1), rel=1e-6, abs=1e-9)


@law
@given(lengths, speeds, accelerations)
def test_monotone_and_never_faster_than_its_speed(d: float, v: float, a: float) -> None:
    time = point(move_time_s(d, v, a))
    assert time >= d / v
    assert point(move_time_s(d, v * 1.1, a)) <= time * (1 + 1e-12)
    assert point(move_time_s(d, v, a * 1.1)) < time
    assert point(move_time_s(d * 1.1, v, a)) > time


@law
@given(st.floats(0.001, 0.999), speeds, accelerations)
def test_a_speed_that_is_not_reached_changes_nothing(share: float, v: float, a: float) -> None:
    d = share * v**2 / a
    assert move_time_s(d, v, a) == pytest.approx(2 * math.sqrt(d / a), rel=1e-9)
    assert move_time_s(d, v, a) == move_time_s(d, 2 * v, a)


def test_moves_that_cannot_be() -> None:
    assert move_time_s(10, 20, 1000, 30, 0) == NotValid("ends-faster-than-the-move")
    assert move_time_s(0.1, 60, 1000, 50, 0) == NotValid("too-short-to-change-speed")
    for wrong in ((0, 60, 1000), (10, 0, 1000), (10, 60, -1), (math.nan, 60, 1000)):
        with pytest.raises(ValueError, match="must be a finite number above zero"):
            move_time_s(*wrong)


@law
@given(st.floats(0.05, 100), speeds, st.floats(100, 10000))
def test_mean_time_against_quadrature(mean: float, v: float, a: float) -> None:
    assert mean_move_time_s(mean, v, a) == pytest.approx(oracles.mean_move_time(mean, v, a), rel=1e-6)


def test_mean_time_between_its_limits() -> None:
    """Long moves at speed: m / v + v / a. A speed never reached: the mean of 2 sqrt(d / a) is sqrt(pi m / a)."""
    assert mean_move_time_s(1e6, 60, 1000) == pytest.approx(1e6 / 60 + 60 / 1000, rel=1e-9)
    assert mean_move_time_s(0.01, 500, 100) == pytest.approx(math.sqrt(math.pi * 0.01 / 100), rel=1e-9)
