"""Pressure of a melt. Values by formula apart from the project; fluids and quadrature in the outside checks."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilesmith.physics import melt
from profilesmith.physics.answer import NotValid
from tests.physics import oracles
from tests.physics.outside_check import point
from tests.physics.ranges import law

flows = st.floats(0.5, 20)
radii = st.floats(0.1, 0.6)
powers = st.floats(0.2, 1.2)


def test_shear_rates() -> None:
    assert melt.wall_shear_rate_per_s(5, 0.2) == pytest.approx(795.7747, rel=1e-6)
    assert melt.wall_shear_rate_per_s(5, 0.2, 0.45) == pytest.approx(1038.928, rel=1e-6)


def test_pressures() -> None:
    tube = point(melt.power_law_tube_pressure_mpa(2000, 0.45, 5, 0.2, 0.6))
    cone = point(melt.power_law_cone_pressure_mpa(2000, 0.45, 5, 1.0, 0.2, 30))
    assert melt.newtonian_pressure_mpa(1000, 5, 0.2, 0.6) == pytest.approx(4.774648, rel=1e-6)
    assert (tube, cone) == pytest.approx((0.2733032, 0.1035739), rel=1e-6)
    assert tube + cone == pytest.approx(0.376877, rel=2e-6)


@law
@given(flows, radii, st.floats(100, 5000))
def test_power_one_is_one_viscosity(flow: float, radius: float, viscosity: float) -> None:
    tube = melt.power_law_tube_pressure_mpa(viscosity, 1.0, flow, radius, 0.6)
    assert tube == pytest.approx(melt.newtonian_pressure_mpa(viscosity, flow, radius, 0.6), rel=1e-12)


@law
@given(flows, radii, powers)
def test_tube_integrates_back_to_the_flow(flow: float, radius: float, power: float) -> None:
    pressure_pa = point(melt.power_law_tube_pressure_mpa(2000, power, flow, radius, 0.6)) * 1e6
    assert oracles.power_law_flow(pressure_pa, radius, 0.6, 2000, power) == pytest.approx(flow, rel=1e-5)


@law
@given(flows, radii, powers, st.floats(1.2, 8), st.floats(5, 45))
def test_cone_against_quadrature(flow: float, narrow: float, power: float, widening: float, angle: float) -> None:
    ours = melt.power_law_cone_pressure_mpa(2000, power, flow, narrow * widening, narrow, angle)
    slope = math.tan(math.radians(angle))
    assert ours == pytest.approx(
        oracles.power_law_cone(2000, power, flow, narrow * widening, narrow, slope) / 1e6, rel=1e-6
    )


@law
@given(flows, radii, powers)
def test_more_flow_and_a_narrower_nozzle_need_more(flow: float, radius: float, power: float) -> None:
    pressure = point(melt.power_law_tube_pressure_mpa(2000, power, flow, radius, 0.6))
    assert point(melt.power_law_tube_pressure_mpa(2000, power, flow * 1.1, radius, 0.6)) > pressure
    assert point(melt.power_law_tube_pressure_mpa(2000, power, flow, radius * 0.9, 0.6)) > pressure
    # A thinning melt needs less than twice the pressure for twice the flow.
    doubled = point(melt.power_law_tube_pressure_mpa(2000, power, flow * 2, radius, 0.6))
    assert doubled == pytest.approx(pressure * 2**power, rel=1e-9)


def test_what_is_no_melt_is_not_judged() -> None:
    assert isinstance(melt.wall_shear_rate_per_s(5, 0.2, 0.099), NotValid)
    assert not isinstance(melt.wall_shear_rate_per_s(5, 0.2, 0.1), NotValid)
    assert isinstance(melt.power_law_tube_pressure_mpa(2000, 2.0, 5, 0.2, 0.6), NotValid)
    assert isinstance(melt.power_law_cone_pressure_mpa(2000, 2.0, 5, 1.0, 0.2, 30), NotValid)
    assert isinstance(melt.power_law_cone_pressure_mpa(2000, 0.45, 5, 1.0, 0.2, 60), NotValid)
    with pytest.raises(ValueError, match="wider at its entry"):
        melt.power_law_cone_pressure_mpa(2000, 0.45, 5, 0.2, 0.2, 30)
    with pytest.raises(ValueError, match="viscosity_pa_s"):
        melt.newtonian_pressure_mpa(0, 5, 0.2, 0.6)
