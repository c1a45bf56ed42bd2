"""Hardness to modulus. Gent and Qi by their formulas, apart from the project; the flat punch as another law."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilesmith.physics.answer import Bracket, NotValid
from profilesmith.physics.hardness import gent_modulus_mpa, qi_modulus_from_a_mpa, qi_modulus_from_d_mpa
from tests.physics import oracles
from tests.physics.outside_check import point
from tests.physics.ranges import law


@pytest.mark.parametrize(
    ("shore", "gent", "punch"),
    [
        (50, 2.455812, 2.465408),
        (60, 3.605073, 3.619276),
        (70, 5.520507, 5.542390),
        (80, 9.351375, 9.388617),
        (85, 13.18224, 13.23484),
        (90, 20.84398, 20.92730),
    ],
)
def test_gent(shore: float, gent: float, punch: float) -> None:
    assert gent_modulus_mpa(shore) == pytest.approx(gent, rel=1e-6)
    assert oracles.punch_modulus(shore) == pytest.approx(punch, rel=1e-6)


@pytest.mark.parametrize(("shore", "gent"), [(95, 43.82919), (98, 112.78)])
def test_hard_readings_are_a_factor_of_two(shore: float, gent: float) -> None:
    bracket = gent_modulus_mpa(shore)
    assert isinstance(bracket, Bracket)
    assert (bracket.low, bracket.high) == pytest.approx((gent / 2, gent * 2), rel=1e-4)
    assert bracket.holds(oracles.punch_modulus(shore))


def test_three_points_of_reading_are_about_that_factor() -> None:
    """At 95A: times 0.6 to 2.6, and 9.58 MPa a point from 94A to 96A."""
    at_95 = oracles.punch_modulus(95)
    assert oracles.punch_modulus(92) / at_95 == pytest.approx(0.6, abs=0.05)
    assert oracles.punch_modulus(98) / at_95 == pytest.approx(2.6, abs=0.05)
    assert (oracles.punch_modulus(96) - oracles.punch_modulus(94)) / 2 == pytest.approx(9.58, rel=0.01)


@pytest.mark.parametrize(("shore", "modulus"), [(50, 3.4253), (60, 5.884370), (70, 10.10881), (80, 17.36601)])
def test_qi(shore: float, modulus: float) -> None:
    assert qi_modulus_from_a_mpa(shore) == pytest.approx(modulus, rel=2e-5)
    assert math.exp(0.0235 * shore - 0.6403) < modulus / 2  # the natural logarithm, which copies use, is wrong


@pytest.mark.parametrize(("shore_d", "modulus"), [(30, 17.366), (45, 39.10), (48, 46.0), (50, 51.3)])
def test_qi_from_the_d_scale(shore_d: float, modulus: float) -> None:
    assert qi_modulus_from_d_mpa(shore_d) == pytest.approx(modulus, rel=2e-3)


@pytest.mark.parametrize(("irhd", "modulus"), [(30, 0.92), (40, 1.50), (50, 2.20), (60, 4.45), (70, 7.35)])
def test_natural_rubber(irhd: float, modulus: float) -> None:
    """Lindley's table [from memory], IRHD taken as Shore A: the law is within some 25 %."""
    assert gent_modulus_mpa(irhd) == pytest.approx(modulus, rel=0.26)


def test_a_printed_filament_is_softer_than_the_law_says() -> None:
    """63A: 2.5 MPa by its maker (IJB 2023, 9(5), 756, table 2); the law is 63 % above, as the docstring says."""
    assert point(gent_modulus_mpa(63)) / 2.5 == pytest.approx(1.63, abs=0.005)


@pytest.mark.parametrize("shore", [0, 19.9, 98.1, 100])
def test_outside_the_scale(shore: float) -> None:
    answer = gent_modulus_mpa(shore)
    assert answer == NotValid("too-soft-for-shore-a" if shore < 20 else "too-hard-for-shore-a")


def test_outside_qi() -> None:
    for answer in (qi_modulus_from_a_mpa(85), qi_modulus_from_a_mpa(19), qi_modulus_from_d_mpa(25)):
        assert isinstance(answer, NotValid)
    for wrong in (-1, 101, math.nan):
        with pytest.raises(ValueError, match="from 0 to 100"):
            gent_modulus_mpa(wrong)


@law
@given(st.floats(20, 80), st.floats(20, 80))
def test_harder_is_stiffer(one: float, other: float) -> None:
    soft, hard = sorted((one, other))
    assert point(gent_modulus_mpa(soft)) <= point(gent_modulus_mpa(hard))
    assert point(qi_modulus_from_a_mpa(soft)) <= point(qi_modulus_from_a_mpa(hard))
    assert point(gent_modulus_mpa(hard)) == pytest.approx(oracles.punch_modulus(hard), rel=5e-3)
