"""Strain at a bend radius. Check values by geometry; the coating's against a standard's table in the outside checks."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilesmith.physics.answer import Bracket, NotValid
from profilesmith.physics.bending import (
    coating_strain_bracket,
    mandrel_elongation_share,
    outer_strain_share,
    smallest_inner_radius_mm,
)
from tests.physics.outside_check import point
from tests.physics.ranges import law, thicknesses

gentle = st.floats(1.0, 100.0)  # inner radius over thickness


@pytest.mark.parametrize(
    ("thickness", "radius", "strain"), [(2, 20, 0.04761905), (1.2, 10, 0.05660377), (3, 15, 0.09090909)]
)
def test_outer_fibre(thickness: float, radius: float, strain: float) -> None:
    assert outer_strain_share(thickness, radius) == pytest.approx(strain, rel=1e-6)


def test_outer_fibre_by_the_lengths_of_two_arcs() -> None:
    """Another way: a quarter turn of the middle (unstretched) and of the outside."""
    middle, outside = (math.pi / 2 * (20 + depth) for depth in (1.0, 2.0))
    assert outer_strain_share(2, 20) == pytest.approx(outside / middle - 1)


@pytest.mark.parametrize(("strain", "radius"), [(0.05, 19.0), (0.033, 29.30303)])
def test_smallest_radius(strain: float, radius: float) -> None:
    assert smallest_inner_radius_mm(2, strain) == pytest.approx(radius, rel=1e-6)


def test_coating() -> None:
    bracket = coating_strain_bracket(2, 0.05, 20)
    assert isinstance(bracket, Bracket)
    assert bracket.low == pytest.approx(0.05)
    assert bracket.high == pytest.approx(2.1 / 40)


@pytest.mark.parametrize(
    ("mandrel", "plain", "coated"),
    [(25.4, 3.030, 3.325), (19.05, 4.000, 4.433), (12.7, 5.882, 6.650), (9.525, 7.692, 8.867), (6.35, 11.11, 13.30)],
)
def test_mandrels(mandrel: float, plain: float, coated: float) -> None:
    assert 100 * point(outer_strain_share(0.79375, mandrel / 2)) == pytest.approx(plain, rel=5e-4)
    assert 100 * mandrel_elongation_share(0.79375, 0.0254, mandrel) == pytest.approx(coated, rel=5e-4)


@law
@given(thicknesses, gentle)
def test_radius_and_strain_are_inverse(thickness: float, ratio: float) -> None:
    strain = point(outer_strain_share(thickness, thickness * ratio))
    assert 0 < strain <= 1 / 3 + 1e-12
    assert smallest_inner_radius_mm(thickness, min(strain, 1 / 3)) == pytest.approx(thickness * ratio, rel=1e-9)
    assert point(outer_strain_share(thickness, thickness * ratio * 1.1)) < strain


@law
@given(thicknesses, gentle, st.floats(0, 1))
def test_a_coating_is_strained_more_than_what_it_lies_on(thickness: float, ratio: float, coating: float) -> None:
    bracket = coating_strain_bracket(thickness, coating, thickness * ratio)
    assert isinstance(bracket, Bracket)
    assert bracket.low >= point(outer_strain_share(thickness, thickness * ratio))
    bare = coating_strain_bracket(thickness, 0, thickness * ratio)
    assert isinstance(bare, Bracket)
    assert bare.low == pytest.approx(point(outer_strain_share(thickness, thickness * ratio)), rel=1e-12)


def test_a_fold_is_not_judged() -> None:
    for answer in (outer_strain_share(2, 1.9), coating_strain_bracket(2, 0.1, 1.9), smallest_inner_radius_mm(2, 0.4)):
        assert answer == NotValid("bend-too-sharp")
    with pytest.raises(ValueError, match="inner_radius_mm"):
        outer_strain_share(2, 0)
    with pytest.raises(ValueError, match="coating_mm"):
        coating_strain_bracket(2, -0.1, 20)
