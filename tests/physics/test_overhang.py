"""Overhangs, measured from the vertical. Check values by trigonometry, apart from the project."""

from __future__ import annotations

import math

import pytest
from hypothesis import given

from profilesmith.physics.answer import NotValid
from profilesmith.physics.surface import angle_at_overlap_deg, overlap_share, step_over_mm
from tests.physics.outside_check import point
from tests.physics.ranges import angles, heights, law, squeezes


@pytest.mark.parametrize(
    ("angle", "step", "overlap"),
    [(45, 0.2000, 0.5556), (55, 0.2856296, None), (60, 0.3464102, 0.2302), (70, 0.5494955, 0.0), (0, 0.0, 1.0)],
)
def test_step_and_overlap(angle: float, step: float, overlap: float | None) -> None:
    assert step_over_mm(0.2, angle) == pytest.approx(step, rel=1e-6, abs=1e-12)
    if overlap is not None:
        assert overlap_share(0.45, 0.2, angle) == pytest.approx(overlap, abs=5e-5)


def test_half_of_the_bead_rests() -> None:
    assert angle_at_overlap_deg(0.45, 0.2, 0.5) == pytest.approx(48.36646, rel=1e-6)


@law
@given(heights, squeezes, angles)
def test_angle_and_overlap_are_inverse(height: float, squeeze: float, angle: float) -> None:
    width = height * squeeze
    overlap = overlap_share(width, height, angle)
    assert 0 <= overlap <= 1
    if overlap > 1e-6:
        assert angle_at_overlap_deg(width, height, overlap) == pytest.approx(angle, abs=1e-6)
    assert overlap_share(width, height * 0.9, angle) >= overlap
    assert point(step_over_mm(height, angle * 0.9)) <= point(step_over_mm(height, angle))


@law
@given(heights)
def test_stairs_fill_the_right_triangle(height: float) -> None:
    """Another way: step and height are the legs under a face of that lean (convention: not from the horizontal)."""
    assert math.degrees(math.atan2(point(step_over_mm(height, 30)), height)) == pytest.approx(30)


def test_a_ceiling_is_bridged() -> None:
    assert isinstance(step_over_mm(0.2, 90), NotValid)
    assert overlap_share(0.45, 0.2, 90) == 0
    for angle in (-1, 91, math.nan):
        with pytest.raises(ValueError, match="from 0 to 90"):
            overlap_share(0.45, 0.2, angle)
