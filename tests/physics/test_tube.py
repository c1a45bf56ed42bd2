"""Long tubes: friction, stored length, slack. Values by formula apart from the project, and by quadrature."""

from __future__ import annotations

import math

import pytest

from profilesmith.physics.answer import NotValid
from profilesmith.physics.feed_path import slack_mm, stored_length_ratio

HALF_TURN = math.pi


def test_ratio_of_rigid_to_soft() -> None:
    assert stored_length_ratio(3500, 1.75, 100, 1.75) == pytest.approx(10.62193 / 0.3034836, rel=1e-6)


def test_slack() -> None:
    assert slack_mm(2.0, 1.75, HALF_TURN) == pytest.approx(0.7853982, rel=1e-6)
    assert slack_mm(1.75, 1.75, HALF_TURN) == 0
    assert isinstance(slack_mm(1.7, 1.75, HALF_TURN), NotValid)
