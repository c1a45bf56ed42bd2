"""Heating of a strand. Values by the first term of the series, apart from the project; the whole series by scipy."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilesmith.physics.answer import NotValid
from profilesmith.physics.heat import (
    fourier_number_at_lag,
    heating_time_s,
    melting_flow_ratio,
    thermal_diffusivity_mm2_s,
)
from tests.physics import oracles
from tests.physics.outside_check import point
from tests.physics.ranges import law


def test_nine_tenths_heated() -> None:
    assert fourier_number_at_lag(0.1) == pytest.approx(0.479638, rel=1e-5)
    assert heating_time_s(0.875, 0.1) == pytest.approx(3.672, abs=5e-4)  # diffusivity of PLA, 1.0e-7 m2/s [from memory]


def test_diffusivity_of_a_flexible_urethane() -> None:
    """0.19 W/(m K), 1850 J/(kg K), 1180 kg/m3, as published for the family."""
    assert thermal_diffusivity_mm2_s(0.19, 1850, 1.18) == pytest.approx(0.08704, rel=2e-4)


def test_flow_ratios() -> None:
    """12 mm heated: 7.860 mm3/s for PLA, 6.841 for the urethane; 20 mm: 13.10; only the ratios are used."""
    assert melting_flow_ratio(12, 0.1, 12, 0.08704) == pytest.approx(6.841 / 7.860, rel=2e-4)
    assert melting_flow_ratio(12, 0.1, 20, 0.1) == pytest.approx(13.10 / 7.860, rel=2e-4)


def test_the_diameter_drops_out() -> None:
    """Another way: area times heated length over the heating time, for two diameters."""
    flows = [math.pi * r**2 * 12 / point(heating_time_s(r, 0.1)) for r in (0.875, 1.425)]
    assert flows[0] == pytest.approx(flows[1])
    assert flows[0] == pytest.approx(7.860, abs=5e-4)


@law
@given(st.floats(0.001, 0.5))
def test_one_term_against_the_whole_series(lag: float) -> None:
    assert oracles.cold_middle(point(fourier_number_at_lag(lag))) == pytest.approx(lag, rel=5e-3)
    assert point(fourier_number_at_lag(lag * 0.9)) > point(fourier_number_at_lag(lag))


def test_a_cold_middle_is_not_judged() -> None:
    assert isinstance(fourier_number_at_lag(0.6), NotValid)
    assert isinstance(heating_time_s(0.875, 0.1, 0.9), NotValid)
    with pytest.raises(ValueError, match="diffusivity_mm2_s"):
        heating_time_s(0.875, 0)
