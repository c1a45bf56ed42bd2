"""Buckling of a pushed strand. Loads by formula apart from the project; the ideal column also by an eigenvalue."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilesmith.physics import buckling
from profilesmith.physics.answer import NotValid
from tests.physics import oracles
from tests.physics.outside_check import point
from tests.physics.ranges import law, moduli

GENT_85A, GENT_60A = 13.182, 3.605


def test_second_moment() -> None:
    assert buckling.strand_second_moment_mm4(1.75) == pytest.approx(0.4603860, rel=1e-6)


@pytest.mark.parametrize(
    ("modulus", "gap", "load"), [(100, 5, 18.17531), (100, 10, 4.5438), (GENT_85A, 5, 2.3959), (GENT_60A, 5, 0.6552)]
)
def test_load_in_a_gap(modulus: float, gap: float, load: float) -> None:
    assert buckling.gap_load_n(modulus, 1.75, gap) == pytest.approx(load, rel=5e-5)


@pytest.mark.parametrize(("gap", "strain"), [(5, 0.0756), (10, 0.0189)])
def test_strain_is_the_same_for_all_materials(gap: float, strain: float) -> None:
    assert buckling.buckling_strain_share(1.75, gap) == pytest.approx(strain, abs=5e-5)


def test_rigid_pla_is_not_limited_by_buckling() -> None:
    """3500 MPa in a gap of 5 mm would need 264 MPa, some five times what PLA bears."""
    answer = buckling.gap_load_n(3500, 1.75, 5, yield_mpa=50)
    assert isinstance(answer, NotValid)
    assert "not its limit" in answer.reason
    assert 3500 * buckling.buckling_strain_share(1.75, 5) == pytest.approx(264, abs=1)


def test_a_short_gap_is_not_judged() -> None:
    assert isinstance(buckling.gap_load_n(100, 1.75, 4.3), NotValid)
    assert isinstance(buckling.gap_load_n(100, 1.75, 5, buckling.CLAMPED), NotValid)
    assert not isinstance(buckling.gap_load_n(100, 1.75, 4.4), NotValid)


@law
@given(moduli, st.floats(1, 3), st.floats(3, 30))
def test_load_against_an_eigenvalue(modulus: float, diameter: float, slenderness: float) -> None:
    gap = diameter * slenderness
    load = oracles.column_load(modulus, buckling.strand_second_moment_mm4(diameter), gap, clamped=False, elements=12)
    assert buckling.gap_load_n(modulus, diameter, gap) == pytest.approx(load, rel=1e-4)


@law
@given(moduli, st.floats(1, 3), st.floats(3, 30))
def test_softer_longer_and_thinner_buckle_sooner(modulus: float, diameter: float, slenderness: float) -> None:
    gap = diameter * slenderness
    load = point(buckling.gap_load_n(modulus, diameter, gap))
    assert point(buckling.gap_load_n(modulus * 0.9, diameter, gap)) < load
    assert point(buckling.gap_load_n(modulus, diameter, gap * 1.1)) < load
    assert point(buckling.gap_load_n(modulus, diameter * 0.9, gap)) < load
    ratio = buckling.buckling_load_ratio(modulus, diameter, modulus / 3, diameter)
    assert ratio == pytest.approx(1 / 3)
    assert buckling.buckling_load_ratio(modulus, diameter, modulus, diameter * 0.9) == pytest.approx(0.9**4)


def test_push_index_ranks_the_materials() -> None:
    pla, soft_95a, soft_85a = (buckling.push_index_per_s(*pair) for pair in ((3500, 1000), (100, 300), (13.18, 1000)))
    assert (pla, soft_95a, soft_85a) == pytest.approx((3.5e6, 3.33e5, 1.32e4), rel=2e-3)


@pytest.mark.parametrize(("end", "index"), [(buckling.CLAMPED, 1.57967e4), (buckling.HINGED, 6.31867e4)])
def test_needed_push_index(end: float, index: float) -> None:
    assert buckling.needed_push_index_per_s(5, 0.2, 0.6, 0.875, 5, end) == pytest.approx(index, rel=1e-5)


def test_needed_push_index_by_pressure_and_eigenvalue() -> None:
    """Another way: the modulus at which the eigenvalue of the column equals the laminar pressure on the filament."""
    area, second_moment = 3.141592653589793 * 0.875**2, buckling.strand_second_moment_mm4(1.75)
    push = oracles.laminar_pressure(1000, 5e-9, 0.2e-3, 0.6e-3) / 1e6 * area
    modulus = push / oracles.column_load(1.0, second_moment, 5, clamped=False)
    needed = buckling.needed_push_index_per_s(5, 0.2, 0.6, 0.875, 5, buckling.HINGED)
    assert buckling.push_index_per_s(modulus, 1000) == pytest.approx(needed, rel=1e-4)
