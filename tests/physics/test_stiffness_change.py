"""New stiffness over old. Check values worked out apart from the project."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilesmith.physics.answer import Bracket
from profilesmith.physics.section import BarSection, bending_bracket, bending_ratio, mass_ratio
from profilesmith.physics.stiffness_change import largest_loss_share, same_pattern_bracket, with_material
from tests.physics.ranges import law

BAR = BarSection(20, 6, 0.9, 0.8, 0.8)
walls = st.floats(0.1, 2)
bars = st.builds(BarSection, st.just(20.0), st.just(6.0), walls, walls, walls)
densities = st.floats(0.03, 1.0)


def test_thirty_to_five_per_cent() -> None:
    change = same_pattern_bracket(BAR, 0.30, BAR, 0.05)
    assert (change.low, change.high) == pytest.approx((0.880180, 0.953370), abs=1e-6)
    assert change.holds(0.923062)  # stiffest isotropic core
    assert change.holds(0.948779)  # gyroid
    assert mass_ratio(BAR, 0.05) / mass_ratio(BAR, 0.30) == pytest.approx(1 - 0.31, abs=0.005)


def test_loss_without_any_law() -> None:
    assert largest_loss_share(BAR, 0.30, BAR) == pytest.approx(0.1438, abs=5e-5)
    assert largest_loss_share(BAR, 0.30, BarSection(20, 6, 1.35, 1.2, 1.2)) == 0


@law
@given(bars, densities, bars, densities, st.floats(1, 2))
def test_every_law_lies_in_the_bracket(old: BarSection, before: float, new: BarSection, after: float, n: float) -> None:
    change = same_pattern_bracket(old, before, new, after)
    ratio = bending_ratio(new, after**n) / bending_ratio(old, before**n)
    assert change.low * (1 - 1e-4) <= ratio <= change.high * (1 + 1e-4)
    assert 1 - largest_loss_share(old, before, new) <= ratio * (1 + 1e-9)


@law
@given(bars, densities, bars, densities)
def test_unrelated_patterns_are_less_certain(old: BarSection, before: float, new: BarSection, after: float) -> None:
    apart = bending_bracket(new, Bracket(after**2, after)).over(bending_bracket(old, Bracket(before**2, before)))
    same = same_pattern_bracket(old, before, new, after)
    assert apart.low <= same.low * (1 + 1e-9)
    assert same.high <= apart.high * (1 + 1e-9)


@law
@given(bars, densities)
def test_no_change_is_no_change(bar: BarSection, density: float) -> None:
    change = same_pattern_bracket(bar, density, bar, density)
    assert (change.low, change.high) == pytest.approx((1.0, 1.0))


def test_another_plastic() -> None:
    """3500 MPa to 20 to 400 MPa at the same section: 0.0057 to 0.114 of the stiffness."""
    change = with_material(Bracket(1, 1), Bracket(3500, 3500), Bracket(20, 400))
    assert (change.low, change.high) == pytest.approx((20 / 3500, 400 / 3500))
