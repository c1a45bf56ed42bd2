"""Bead geometry. Check values by plane geometry, worked out apart from the project; areas also by shapely."""

from __future__ import annotations

import math

import pytest
from hypothesis import given

from profilesmith.physics import bead
from tests.physics import oracles
from tests.physics.ranges import heights, law, speeds, squeezes

REL = 1e-6  # the check values have seven digits


@pytest.mark.parametrize(
    ("width", "height", "area"),
    [(0.45, 0.20, 0.08141593), (0.48, 0.30, 0.1246858), (0.42, 0.10, 0.03985398), (0.40, 0.20, 0.07141593)],
)
def test_area(width: float, height: float, area: float) -> None:
    assert bead.bead_area_mm2(width, height) == pytest.approx(area, rel=REL)
    assert bead.bead_area_mm2(width, height) == pytest.approx(oracles.stadium_area(width, height), rel=REL)


def test_a_rectangle_holds_a_tenth_more() -> None:
    assert 0.45 * 0.20 / bead.bead_area_mm2(0.45, 0.20) == pytest.approx(1.105435, rel=REL)


@pytest.mark.parametrize(("speed", "flow"), [(60, 4.884956), (40, 3.256637), (20, 1.628319), (15, 1.221239)])
def test_flow_at_a_speed(speed: float, flow: float) -> None:
    assert bead.flow_mm3_s(speed, 0.45, 0.20) == pytest.approx(flow, rel=REL)


@pytest.mark.parametrize(("flow", "speed"), [(12, 147.39), (3, 36.84783), (1.5, 18.42391)])
def test_speed_at_a_flow(flow: float, speed: float) -> None:
    assert bead.speed_at_flow_mm_s(flow, 0.45, 0.20) == pytest.approx(speed, rel=1e-5)


@pytest.mark.parametrize(("density", "metres"), [(1.24, 335.2836), (1.21, 343.5964)])
def test_length_of_a_kilogram(density: float, metres: float) -> None:
    assert bead.filament_length_m(1000, 1.75, density) == pytest.approx(metres, rel=REL)


def test_spacing_and_wall() -> None:
    assert bead.solid_spacing_mm(0.45, 0.20) == pytest.approx(0.4070796, rel=REL)
    walls = [bead.wall_thickness_mm(beads, 0.45, 0.20) for beads in range(5)]
    assert walls == pytest.approx([0, 0.45, 0.8570796, 1.264159, 1.671239], rel=REL)


@law
@given(heights, squeezes, speeds)
def test_speed_and_flow_are_inverse(height: float, squeeze: float, speed: float) -> None:
    width = height * squeeze
    assert bead.speed_at_flow_mm_s(bead.flow_mm3_s(speed, width, height), width, height) == pytest.approx(
        speed, rel=1e-12
    )


@law
@given(heights, squeezes)
def test_area_grows_with_width_and_height(height: float, squeeze: float) -> None:
    width = height * squeeze
    assert bead.bead_area_mm2(width * 1.01, height) > bead.bead_area_mm2(width, height)
    assert bead.bead_area_mm2(width, height) > bead.bead_area_mm2(width, height * 0.99)


@pytest.mark.parametrize(
    ("width", "height"), [(0.1, 0.2), (0, 0), (0.4, 0), (0.4, -0.2), (math.nan, 0.2), (math.inf, 0.2)]
)
def test_what_is_no_stadium_is_refused(width: float, height: float) -> None:
    with pytest.raises(ValueError, match=r"width|height"):
        bead.bead_area_mm2(width, height)
    with pytest.raises(ValueError, match=r"width|height"):
        bead.speed_at_flow_mm_s(5, width, height)
