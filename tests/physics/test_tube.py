"""Long tubes: friction, stored length, slack. Values by formula apart from the project, and by quadrature."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilesmith.physics.answer import NotValid
from profilesmith.physics.bead import filament_area_mm2
from profilesmith.physics.tube import capstan_ratio, slack_mm, stored_length_mm, stored_length_ratio
from tests.physics import oracles
from tests.physics.outside_check import point
from tests.physics.ranges import law

HALF_TURN = math.pi


@pytest.mark.parametrize(
    ("friction", "turn", "ratio"),
    [(0.15, 180, 1.601978), (0.1, 180, 1.369108), (0.25, 180, 2.193280), (0.15, 270, 2.027611), (0.15, 0, 1.0)],
)
def test_capstan(friction: float, turn: float, ratio: float) -> None:
    assert capstan_ratio(friction, math.radians(turn)) == pytest.approx(ratio, rel=1e-6)


@pytest.mark.parametrize(
    ("modulus", "length", "friction", "turn", "stored"),
    [
        (3500, 400, 0.15, HALF_TURN, 0.3034836),
        (100, 400, 0.15, HALF_TURN, 10.62193),
        (3500, 50, 0, 0, 0.02970),
        (100, 50, 0, 0, 1.039379),
        (13.18, 50, 0, 0, 7.885),
    ],
)
def test_stored_length(modulus: float, length: float, friction: float, turn: float, stored: float) -> None:
    assert stored_length_mm(5, length, modulus, 1.75, friction, turn) == pytest.approx(stored, rel=5e-4)


def test_a_fifth_is_the_most() -> None:
    """A straight tube: the strain is the push over modulus and area."""
    fifth = 0.2 * 100 * filament_area_mm2(1.75)
    assert stored_length_mm(fifth * 0.999, 400, 100, 1.75, 0, 0) == pytest.approx(400 * 0.2 * 0.999)
    assert isinstance(stored_length_mm(fifth * 1.001, 400, 100, 1.75, 0, 0), NotValid)


def test_very_soft_in_a_long_tube_is_not_judged() -> None:
    """The formula would say 80.6 of 400 mm."""
    answer = stored_length_mm(5, 400, 13.18, 1.75, 0.15, HALF_TURN)
    assert isinstance(answer, NotValid)
    assert oracles.stored_length(5, 400, 13.18, filament_area_mm2(1.75), 0.15, HALF_TURN) == pytest.approx(
        80.6, abs=0.05
    )


@law
@given(st.floats(0, 20), st.floats(50, 800), st.floats(200, 4000), st.floats(0, 0.4), st.floats(0, 9))
def test_against_quadrature(push: float, length: float, modulus: float, friction: float, bend: float) -> None:
    ours = stored_length_mm(push, length, modulus, 1.75, friction, bend)
    peak = push * math.exp(friction * bend) / (modulus * filament_area_mm2(1.75))
    assert isinstance(ours, NotValid) == (peak > 0.2)
    if not isinstance(ours, NotValid):
        theirs = oracles.stored_length(push, length, modulus, filament_area_mm2(1.75), friction, bend)
        assert ours == pytest.approx(theirs, rel=1e-8, abs=1e-12)
        assert point(stored_length_mm(push, length, modulus * 1.1, 1.75, friction, bend)) <= ours


@law
@given(st.floats(50, 4000), st.floats(50, 4000), st.floats(1, 3))
def test_the_ratio_needs_no_push(old: float, new: float, diameter: float) -> None:
    stored = [point(stored_length_mm(0.5, 400, modulus, diameter, 0.15, 3)) for modulus in (old, new)]
    assert stored_length_ratio(old, diameter, new, diameter) == pytest.approx(stored[1] / stored[0], rel=1e-9)


def test_ratio_of_rigid_to_soft() -> None:
    assert stored_length_ratio(3500, 1.75, 100, 1.75) == pytest.approx(10.62193 / 0.3034836, rel=1e-6)


def test_slack() -> None:
    assert slack_mm(2.0, 1.75, HALF_TURN) == pytest.approx(0.7853982, rel=1e-6)
    assert slack_mm(1.75, 1.75, HALF_TURN) == 0
    assert isinstance(slack_mm(1.7, 1.75, HALF_TURN), NotValid)
