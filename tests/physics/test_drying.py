"""Drying of a strand. Crank's series by scipy; Arrhenius against ranges worked out apart."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilesmith.physics.answer import Bracket, NotValid
from profilesmith.physics.drying import (
    BESSEL_ZEROS,
    drying_time_h,
    fourier_at_moisture_left,
    glassy_drying_ceiling_c,
    moisture_left_share,
    warming_speedup_ratio,
)
from tests.physics import oracles
from tests.physics.outside_check import point
from tests.physics.ranges import law


def test_bessel_zeros_against_scipy() -> None:
    from scipy import special

    theirs = special.jn_zeros(0, len(BESSEL_ZEROS))
    assert list(BESSEL_ZEROS) == pytest.approx(list(theirs), abs=1e-12)
    assert BESSEL_ZEROS[0] == pytest.approx(2.404826, abs=5e-7)  # handbook value


@pytest.mark.parametrize(("fourier", "left"), [(0.1, 0.3941758), (0.2, 0.2178524), (0.0630582, 0.5), (0.3344132, 0.1)])
def test_moisture_left(fourier: float, left: float) -> None:
    assert moisture_left_share(fourier) == pytest.approx(left, rel=1e-6)
    assert fourier_at_moisture_left(left) == pytest.approx(fourier, rel=1e-6)


@pytest.mark.parametrize(("diffusivity", "hours"), [(1e-12, 71.12), (2e-12, 35.56), (3.4e-12, 20.92)])
def test_hours(diffusivity: float, hours: float) -> None:
    assert drying_time_h(0.1, 1.75, diffusivity) == pytest.approx(hours, abs=0.005)


@law
@given(st.floats(1e-5, 1.5))
def test_series_and_short_form_against_scipy(fourier: float) -> None:
    assert moisture_left_share(fourier) == pytest.approx(oracles.moisture_left(fourier, 3000), abs=1e-6)


@law
@given(st.floats(0, 1.9), st.floats(1.0001, 2))
def test_it_only_gets_drier(fourier: float, longer: float) -> None:
    assert 0 < moisture_left_share(fourier * longer) <= moisture_left_share(fourier) <= 1


def test_from_all_to_almost_nothing() -> None:
    assert moisture_left_share(0) == 1
    assert fourier_at_moisture_left(1.0) == pytest.approx(0, abs=1e-15)
    assert moisture_left_share(fourier_at_moisture_left(0.001)) == pytest.approx(0.001)
    for wrong in (0, -0.1, 1.1, 50, math.nan):
        with pytest.raises(ValueError, match="share left"):
            fourier_at_moisture_left(wrong)


@pytest.mark.parametrize(("warm", "low", "high"), [(55, 4, 6), (65, 5.8, 9.8)])
def test_warming(warm: float, low: float, high: float) -> None:
    """35 to 45 kJ/mol [from memory] from 23 degC: four to six times at 55, six to ten at 65 degC."""
    assert point(warming_speedup_ratio(35, 23, warm)) == pytest.approx(low, rel=0.02)
    assert point(warming_speedup_ratio(45, 23, warm)) == pytest.approx(high, rel=0.02)


def test_practice_is_met() -> None:
    """Tenfold drier in 3.5 to 9 h at 55 to 65 degC, as the spool labels say (common practice, no source)."""
    cold = drying_time_h(0.1, 1.75, 2e-12)
    assert 3.5 <= cold / point(warming_speedup_ratio(45, 23, 65)) <= 9
    assert 3.5 <= cold / point(warming_speedup_ratio(35, 23, 55)) <= 9


@law
@given(st.floats(0, 119), st.floats(20, 80))
def test_warmer_is_faster(cold: float, energy: float) -> None:
    assert warming_speedup_ratio(energy, cold, cold) == 1
    assert point(warming_speedup_ratio(energy, cold, cold + 1)) > 1


def test_ceiling_of_glassy_plastics() -> None:
    assert glassy_drying_ceiling_c(55) == Bracket(45, 50)
    assert isinstance(glassy_drying_ceiling_c(-40), NotValid)
    assert isinstance(warming_speedup_ratio(40, 20, 120.5), NotValid)
    assert isinstance(warming_speedup_ratio(40, -0.5, 55), NotValid)
    with pytest.raises(ValueError, match="no temperature"):
        glassy_drying_ceiling_c(math.nan)
