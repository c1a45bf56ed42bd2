"""Stairs and sanding. Check values by geometry, apart from the project."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilesmith.physics.bead import wall_thickness_mm
from profilesmith.physics.surface import (
    beads_for_thickness,
    stair_cusp_mm,
    step_over_mm,
    thickness_left_mm,
    wall_valley_mm,
)
from tests.physics.outside_check import point
from tests.physics.ranges import angles, heights, law, squeezes, thicknesses


@pytest.mark.parametrize(("angle", "cusp"), [(45, 0.1414214), (60, 0.1732051), (30, 0.1), (0, 0), (90, 0.2)])
def test_cusp(angle: float, cusp: float) -> None:
    assert stair_cusp_mm(0.2, angle) == pytest.approx(cusp, rel=1e-6)


@law
@given(heights, angles)
def test_cusp_is_the_height_of_the_stair_s_triangle(height: float, angle: float) -> None:
    """Another way: the altitude of the right triangle whose legs are the layer and its step, 2 area / hypotenuse."""
    step = point(step_over_mm(height, angle))
    assert stair_cusp_mm(height, angle) == pytest.approx(height * step / math.hypot(height, step), rel=1e-9, abs=1e-15)


def test_valleys_of_an_upright_wall() -> None:
    assert wall_valley_mm(0.2) == pytest.approx(0.1)


def test_a_sanded_wall() -> None:
    wall = wall_thickness_mm(3, 0.45, 0.20)
    assert thickness_left_mm(wall, 0.3) == pytest.approx(0.9641593, rel=1e-6)
    assert thickness_left_mm(wall, 0.3) / wall == pytest.approx(0.763, abs=5e-4)


def test_beads_to_be_left_and_to_be_sanded() -> None:
    assert beads_for_thickness(0.9 + 0.3, 0.45, 0.2) == 3


@law
@given(heights, squeezes, st.integers(1, 12))
def test_no_bead_too_few_and_none_too_many(height: float, squeeze: float, beads: int) -> None:
    width = height * squeeze
    wall = wall_thickness_mm(beads, width, height)
    assert beads_for_thickness(wall, width, height) == beads
    assert beads_for_thickness(wall * 1.001, width, height) == beads + 1


@law
@given(thicknesses, st.floats(0, 25))
def test_sanding_more_leaves_less(thickness: float, sanded: float) -> None:
    left = thickness_left_mm(thickness, sanded)
    assert 0 <= left <= thickness
    assert thickness_left_mm(thickness, sanded + 0.1) <= left


def test_what_is_no_surface_is_refused() -> None:
    with pytest.raises(ValueError, match="from 0 to 90"):
        stair_cusp_mm(0.2, 90.5)
    with pytest.raises(ValueError, match="sanded_mm"):
        thickness_left_mm(1, -0.1)
